"""What a session needs of a machine, looked at one by one.

Each check asks one thing of the world and answers with a ``SetUpRow``, as the set-up check does.
"""

import platform
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np

from baycue.capture.devices import CameraDevice, cameras
from baycue.capture.frame import Frame
from baycue.counted import counted
from baycue.cues.display import Window
from baycue.cues.sound_stream import output_devices
from baycue.doctor.packages import INSTALL_AGAIN, lacking, libraries, one_opencv, versions
from baycue.doctor.system_libraries import SOUND, get_line
from baycue.errors import BaycueError, OutputError
from baycue.keep.disk import LEAST_FOR_FILMS_BYTES, FreeBytes, free_bytes
from baycue.pose.landmarker import MediaPipePose
from baycue.pose.model_file import MODEL_SHA256, model_bytes
from baycue.pose.quiet import native_stderr_silenced
from baycue.setup.report import Answer, SetUpReport, SetUpRow

LEAST_PYTHON = (3, 11)
Check = Callable[[], SetUpRow]


def doctor(keep: Path) -> SetUpReport:
    """Every check; ``keep``: where swings would be kept."""
    checks: tuple[Check, ...] = (
        python,
        libraries,
        versions,
        one_opencv,
        model,
        pose,
        display,
        sound,
        camera,
        lambda: disk(keep),
    )
    return SetUpReport(tuple(check() for check in checks))


def python() -> SetUpRow:
    """Python itself."""
    told = f"Python {platform.python_version()} on {platform.system()} {platform.machine()}"
    if sys.version_info >= LEAST_PYTHON:
        return SetUpRow("Python", Answer.GO, told)
    return SetUpRow("Python", Answer.NO_GO, told, "Use Python 3.11 or newer.")


def model(read: Callable[[], bytes] = model_bytes) -> SetUpRow:
    """The pose model's file."""
    try:
        size = len(read())
    except BaycueError as error:
        return SetUpRow("pose model", Answer.NO_GO, str(error), INSTALL_AGAIN)
    told = f"{size / 1e6:.1f} MB, SHA-256 {MODEL_SHA256[:12]}..."
    return SetUpRow("pose model", Answer.GO, told)


def pose() -> SetUpRow:
    """The pose model really started, on an empty picture: nobody must be seen."""
    empty = np.full((360, 640, 3), 90, dtype=np.uint8)
    try:
        with MediaPipePose() as estimator:
            seen = estimator.estimate(Frame(0, 0, empty))
    except BaycueError as error:
        return SetUpRow("pose", Answer.NO_GO, str(error), lacking(str(error)))
    if seen is None:
        return SetUpRow("pose", Answer.GO, "starts, and sees nobody in an empty picture")
    return SetUpRow("pose", Answer.NO_GO, "sees somebody in an empty picture", INSTALL_AGAIN)


def display() -> SetUpRow:
    """A window really opened for a moment."""
    try:
        window = Window((320, 180))
        told = window.describe()
        window.close()
    except OutputError as error:
        do = "Without one verdicts are told in the terminal and by tone; log in at a screen."
        return SetUpRow("screen", Answer.UNSURE, str(error), do)
    return SetUpRow("screen", Answer.GO, told)


def sound() -> SetUpRow:
    """Which devices could play."""
    do = "Without one the screen answers alone."
    try:
        with native_stderr_silenced():
            playing = [device for device in output_devices() if device.channels]
    except OutputError as error:
        do = f"{do} The sound library is missing; {get_line(SOUND)}"
        return SetUpRow("sound", Answer.UNSURE, str(error), do)
    if not playing:
        do = f"{do} Plug a loudspeaker in; baycue devices lists them."
        return SetUpRow("sound", Answer.UNSURE, "no device that plays", do)
    return SetUpRow(
        "sound", Answer.GO, f"{counted(len(playing), 'device')}, first: {playing[0].name}"
    )


def camera(look: Callable[[], tuple[CameraDevice, ...]] = cameras) -> SetUpRow:
    """Which webcams there are; none is opened."""
    found = look()
    if found:
        return SetUpRow("camera", Answer.GO, ", ".join(f'{c.index} "{c.name}"' for c in found))
    do = "Plug one in, or give a phone's or network camera's address to baycue live --source."
    return SetUpRow("camera", Answer.UNSURE, "no webcam found", do)


def disk(keep: Path, left: FreeBytes = free_bytes) -> SetUpRow:
    """Whether films can be kept: room, and the right to write."""
    there = next(p for p in (keep, *keep.absolute().parents) if p.exists())
    probe = there / f".baycue-{platform.node()}-may-write"
    try:
        free = left(there)
        probe.touch(exist_ok=False)
        probe.unlink()
    except OSError as error:
        do = "Give another folder with --keep, or --no-keep."
        return SetUpRow("disk", Answer.NO_GO, f"{there}: {error.strerror}", do)
    told = f"{free / 1e9:.1f} GB free at {there}"
    if free >= LEAST_FOR_FILMS_BYTES:
        return SetUpRow("disk", Answer.GO, told)
    return SetUpRow("disk", Answer.NO_GO, told, "Films need 1 GB: free some space.")
