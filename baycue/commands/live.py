"""Watch ball after ball from a camera until the golfer quits."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from rich.console import Console

from baycue.capture.camera import LiveCamera
from baycue.capture.opening import LiveSource, live_source
from baycue.capture.settings import CameraSettings
from baycue.commands.folders import drop_if_empty, new_folder, refuse_unusable
from baycue.cues.display import open_window
from baycue.cues.speaker import Speaker, open_speaker
from baycue.live.answers import Means, ToldSwing
from baycue.live.feedback import FeedbackMode
from baycue.live.screen import LiveScreen, NoScreen, VerdictScreen
from baycue.live.session import Session, TargetSet
from baycue.live.silence import Silence
from baycue.plan.load import load_plan
from baycue.pose.landmarker import MediaPipePose


@dataclass(frozen=True, slots=True)
class LiveRequest:
    """What the user asked for."""

    source: str
    plans: Sequence[Path]
    out: Path
    settings: CameraSettings = field(default_factory=CameraSettings)
    mode: FeedbackMode = field(default_factory=FeedbackMode)
    window: bool = True
    sound: bool = True
    full_screen: bool = False


def run_live(request: LiveRequest, console: Console) -> tuple[ToldSwing, ...]:
    """Watch and answer; raises BaycueError with one clear line."""
    sets = tuple(TargetSet(path.stem, load_plan(path)) for path in request.plans)
    source = live_source(request.source, request.settings)
    refuse_unusable(request.out)
    folder = new_folder(request.out, "live")
    try:
        means = _means(request, folder, console)
        with MediaPipePose() as estimator:
            camera = LiveCamera(source.open_feed, source.patience)
            session = Session(camera, estimator, sets, means, request.mode)
            _run(session, console)
        _sum_up(session, camera, source, console)
        return session.answers.told
    finally:
        drop_if_empty(folder)


def _run(session: Session, console: Console) -> None:
    try:
        session.run()
    except KeyboardInterrupt:
        _say(console, "stopped")


def _means(request: LiveRequest, folder: Path, console: Console) -> Means:
    speaker: Speaker = Silence()
    screen: LiveScreen = NoScreen()
    if request.sound:
        speaker, why = open_speaker(folder / "tone.wav")
        _say(console, why or speaker.describe())
    if request.window:
        window, why = open_window(full_screen=request.full_screen)
        screen = VerdictScreen(window) if window else screen
        _say(console, f"{why}; verdicts are told here" if why else "Q or Escape ends")
    return Means(speaker, screen, lambda line: _say(console, line))


def _sum_up(session: Session, camera: LiveCamera, source: LiveSource, console: Console) -> None:
    """What the camera really gave, and where the time went."""
    status = camera.status()
    dropped = status.dropped + session.darkroom.damaged
    _say(console, f"{source.name}: {status.got or status.trouble}")
    _say(
        console,
        f"{status.frames} frames read, {dropped} dropped or damaged, opened "
        f"{status.times_opened} time(s); the pose model looked at {session.analysis.poses}; "
        f"{session.analysis.swings} swing(s)",
    )


def picture_size(text: str) -> tuple[int, int]:
    """Read ``1280x720``; ValueError otherwise."""
    match = re.fullmatch(r"(\d{2,5})\s*[xX]\s*(\d{2,5})", text.strip())
    if match is None:
        raise ValueError(f'"{text}" is no picture size; write it like 1280x720')
    return int(match[1]), int(match[2])


def _say(console: Console, line: str) -> None:
    console.print(line, soft_wrap=True, highlight=False, markup=False)
