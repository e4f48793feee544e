"""Watch ball after ball from a camera until the golfer quits."""

import re
from collections.abc import Callable, Sequence
from contextlib import ExitStack, suppress
from dataclasses import dataclass, field
from pathlib import Path

from rich.console import Console

from baycue.capture.camera import LiveCamera
from baycue.capture.opening import LiveSource, live_source
from baycue.capture.settings import CameraSettings
from baycue.commands.keeping import Keeping, KeepRequest
from baycue.commands.named_swing import read_reference
from baycue.counted import counted
from baycue.cues.keys import HELP
from baycue.cues.live_screen import LiveScreen
from baycue.cues.sound_card import SoundCardSpeaker
from baycue.cues.sound_device import SoundChoice
from baycue.cues.speaker import Guide, NoGuide, Speaker
from baycue.cues.voice import Voice
from baycue.cues.voices.standard import VOICE
from baycue.ear.microphone import Microphone
from baycue.errors import BaycueError, OutputError
from baycue.live.answers import Means, ToldSwing
from baycue.live.clocks import Clocks
from baycue.live.feedback import FeedbackMode
from baycue.live.interrupts import Interrupts
from baycue.live.plans import TargetSet
from baycue.live.process_scorer import ProcessScorer
from baycue.live.screen import BigScreen, NoScreen
from baycue.live.seen_again import ReplayMeans, none_earlier
from baycue.live.session import Session
from baycue.live.set_up import SetUpCheck
from baycue.live.silence import Silence
from baycue.live.vitals import SessionVitals, written_vitals
from baycue.plan.watch import PlanWatch
from baycue.pose.landmarker import MediaPipePose
from baycue.replay.others import Other


@dataclass(frozen=True, slots=True)
class LiveRequest:
    """What the user asked for.

    ``against``: the coach's reference for the replay, kept or recorded; ``against_plan``: what a
    recorded one is scored by, if not the first plan.
    """

    source: str
    plans: Sequence[Path]
    settings: CameraSettings = field(default_factory=CameraSettings)
    mode: FeedbackMode = field(default_factory=FeedbackMode)
    window: bool = True
    sound: bool = True
    full_screen: bool = False
    display: int = 0
    sound_choice: SoundChoice = field(default_factory=SoundChoice)
    voice: Voice = VOICE
    microphone: str | None = None
    skip_set_up: bool = False
    keep: KeepRequest = field(default_factory=KeepRequest)
    vitals: Path | None = None
    clocks: Clocks = field(default_factory=Clocks)
    out: Path = Path("baycue_output")
    against: Path | None = None
    against_plan: Path | None = None
    blur_faces: bool = False


def run_live(request: LiveRequest, console: Console) -> tuple[ToldSwing, ...]:
    """Watch and answer; raises BaycueError with one clear line."""
    sets = tuple(_watched(path) for path in request.plans)
    source = live_source(request.source, request.settings)
    reference = _reference(request, console)
    keeping = _keeping(request, sets, console)
    with ExitStack() as stack:
        interrupts = stack.enter_context(Interrupts())
        means = _means(request, stack, console)
        microphone = open_microphone(request.microphone)
        estimator = stack.enter_context(MediaPipePose())
        camera = LiveCamera(source.open_feed, source.patience, clock=request.clocks.stamp_ns)
        scorer = ProcessScorer()
        set_up = SetUpCheck()
        if request.skip_set_up:
            set_up.go_on()
        session = Session(
            camera,
            estimator,
            sets,
            means,
            request.mode,
            set_up,
            microphone,
            scorer,
            keeping.open(camera.ring, source.name) if keeping else None,
            keeping.passed(_students(sets), means.say) if keeping else None,
            keeping.resumed if keeping else None,
            ReplayMeans(
                request.out,
                keeping.earlier if keeping else none_earlier,
                reference,
                request.blur_faces,
            ),
        )
        vitals = SessionVitals(session, camera, scorer)
        stack.enter_context(written_vitals(request.vitals, vitals))
        _run(session, interrupts, console)
    _sum_up(session, camera, source, console)
    if keeping:
        keeping.sum_up(lambda line: _say(console, line))
        if not interrupts.came:
            keeping.make_small(console)
    return session.answers.told


def _reference(request: LiveRequest, console: Console) -> Other | None:
    """The coach's, read before anybody swings; BaycueError if it cannot be."""
    if request.against is None:
        return None
    _say(console, f"reading the coach's reference, {request.against.name}")
    return read_reference(request.against, request.against_plan or request.plans[0])


def _watched(path: Path) -> TargetSet:
    """A plan that is read again when the coach saves it; PlanError if it is wrong now."""
    watch = PlanWatch(path)
    return TargetSet(path.stem, watch.plan, watch)


def _keeping(request: LiveRequest, sets: Sequence[TargetSet], console: Console) -> Keeping | None:
    if request.keep.off:
        return None
    students, now = _students(sets), request.clocks.now
    return Keeping(request.keep, students, lambda line: _say(console, line), now)


def _students(sets: Sequence[TargetSet]) -> list[str]:
    return [each.plan.student for each in sets]


def _run(session: Session, interrupts: Interrupts, console: Console) -> None:
    session.run(interrupts)
    if interrupts.came:
        _say(console, "stopped")


def _means(request: LiveRequest, stack: ExitStack, console: Console) -> Means:
    def say(line: str) -> None:
        _say(console, line)

    speaker: Speaker = Silence()
    guide: Guide = NoGuide()
    is_silent = False
    if request.sound:
        speaker = guide = live_speaker(request.sound_choice)
        stack.callback(_close_quietly, speaker)
        is_silent = not speaker.is_alive
        say(speaker.describe())
    screen = _screen(request, say)
    stack.callback(screen.close)
    return Means(speaker, screen, say, guide, request.voice, is_silent)


def live_speaker(choice: SoundChoice) -> SoundCardSpeaker:
    """The sound card, also one that is not there yet; OutputError if a named one is not."""
    try:
        return SoundCardSpeaker(choice)
    except OutputError:
        if choice.device is not None:
            raise
        return SoundCardSpeaker(choice, patient=True)


def _close_quietly(speaker: Speaker) -> None:
    with suppress(BaycueError):
        speaker.close()


def _screen(request: LiveRequest, say: Callable[[str], None]) -> BigScreen:
    """The window; NoScreen where there is none, unless a display was asked for by number."""
    if not request.window:
        return NoScreen()
    try:
        screen = LiveScreen(request.display, request.full_screen, say=say)
    except OutputError as error:
        if request.display:
            raise
        say(f"{error}; verdicts are told here")
        return NoScreen()
    say(f"{screen.describe()}. {HELP}")
    return screen


def open_microphone(named: str | None) -> Microphone | None:
    """By name or number, ``default`` for the system's own; None and ``none`` for none."""
    if named is None or named.strip().lower() == "none":
        return None
    return Microphone(None if named.strip().lower() == "default" else named)


def _sum_up(session: Session, camera: LiveCamera, source: LiveSource, console: Console) -> None:
    """What the camera really gave, and where the time went."""
    status = camera.status()
    dropped = status.dropped + session.darkroom.damaged
    for line in session.practices.in_the_end():
        _say(console, line)
    _say(console, f"{source.name}: {status.got or status.trouble}")
    _say(
        console,
        f"{status.frames} frames read, {dropped} dropped or damaged, opened "
        f"{counted(status.times_opened, 'time')}; "
        f"the pose model looked at {session.analysis.poses}; "
        f"{counted(session.analysis.swings, 'swing')}",
    )


def picture_size(text: str) -> tuple[int, int]:
    """Read ``1280x720``; ValueError otherwise."""
    match = re.fullmatch(r"(\d{2,5})\s*[xX]\s*(\d{2,5})", text.strip())
    if match is None:
        raise ValueError(f'"{text}" is no picture size; write it like 1280x720')
    return int(match[1]), int(match[2])


def _say(console: Console, line: str) -> None:
    console.print(line, soft_wrap=True, highlight=False, markup=False)
