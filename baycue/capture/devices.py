"""Which cameras this machine has."""

import sys
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from baycue.errors import CameraError
from baycue.plan.words import guess
from baycue.pose.quiet import native_stderr_silenced

SYSFS = Path("/sys/class/video4linux")
_PROBED = range(6)


@dataclass(frozen=True, slots=True)
class CameraDevice:
    """A camera by the number that opens it and the name its driver gives it."""

    index: int
    name: str


def cameras() -> tuple[CameraDevice, ...]:
    """Those of this machine: by name on Linux, elsewhere by trying numbers."""
    if sys.platform.startswith("linux"):
        return cameras_in(SYSFS)
    return tuple(CameraDevice(i, f"camera {i}") for i in _PROBED if _opens(i))


def cameras_in(folder: Path) -> tuple[CameraDevice, ...]:
    """Those that Linux tells of in a folder such as ``SYSFS``.

    One camera may have several nodes; only the first of each gives pictures.
    """
    nodes = sorted(folder.glob("video*"), key=lambda node: _number(node.name))
    return tuple(
        CameraDevice(_number(node.name), _text(node / "name") or node.name)
        for node in nodes
        if _text(node / "index") in ("0", "")
    )


def camera_named(name: str, found: Iterable[CameraDevice]) -> CameraDevice:
    """The one whose name holds these words; CameraError if none or several do."""
    devices = tuple(found)
    fitting = [d for d in devices if name.lower() in d.name.lower()]
    exact = [d for d in fitting if d.name.lower() == name.lower()]
    if len(exact or fitting) == 1:
        return (exact or fitting)[0]
    listed = ", ".join(f'{d.index} "{d.name}"' for d in devices) or "none"
    if fitting:
        raise CameraError(f'camera "{name}": several fit; give the number. Found: {listed}')
    nearest = guess(name, [d.name for d in devices])
    raise CameraError(f'camera "{name}": no such camera{nearest}. Found: {listed}')


def _opens(index: int) -> bool:
    import cv2

    with native_stderr_silenced():
        capture = cv2.VideoCapture(index)
    opened = bool(capture.isOpened())
    capture.release()
    return opened


def _number(node: str) -> int:
    digits = node.removeprefix("video")
    return int(digits) if digits.isdigit() else -1


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8", errors="replace").strip()
    except OSError:
        return ""
