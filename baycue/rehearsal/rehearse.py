"""A rehearsal: a clip served as a network camera, the whole live loop, and what came of it."""

import threading
import time
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path

from baycue.capture.camera import LiveCamera
from baycue.capture.opening import open_address
from baycue.cues.live_screen import LiveScreen
from baycue.cues.sound_card import SoundCardSpeaker
from baycue.cues.speaker import Speaker
from baycue.keep.place import Place
from baycue.keep.reel import Reel
from baycue.keep.swing_keeper import KeepingMeans, SwingKeeper
from baycue.live.answers import Means, ToldSwing
from baycue.live.feedback import FeedbackMode
from baycue.live.plans import TargetSet
from baycue.live.process_scorer import ProcessScorer
from baycue.live.screen import BigScreen, NoScreen
from baycue.live.session import Session
from baycue.live.silence import Silence
from baycue.plan.plan import Plan
from baycue.pose.landmarker import MediaPipePose
from baycue.rehearsal.camera_process import CameraProcess, served_clip
from baycue.rehearsal.ear import Ear, listening
from baycue.rehearsal.latency import end_to_end_ms, impact_sends
from baycue.rehearsal.surroundings import surroundings

_TONE_ENDS_S = 1.2
_MOST_S_A_SWING = 20.0


@dataclass(frozen=True, slots=True)
class Rehearsed:
    """``told``: the swings.  ``end_to_end_ms``: a tone's delay for each impact that was shown,
    None if none was heard; empty without an ear.  ``output_ms``: the driver's estimate.
    ``kept``: what was kept, and made small meanwhile, a line each.
    """

    told: tuple[ToldSwing, ...]
    end_to_end_ms: tuple[float | None, ...]
    output_ms: float | None
    fps: float | None
    kept: tuple[str, ...] = ()


def rehearse(
    clip: Path,
    plan: Plan,
    impact_frames: tuple[int, ...],
    swings: int,
    heard: bool,
    kept_in: Path | None = None,
    makes_small: bool = True,
) -> Rehearsed:
    """Show a clip over and over until so many swings have been told.

    ``impact_frames``: the clip's frames at or after its impacts.  ``heard``: with screen, sound
    card and ear, which need what ``surroundings.missing`` tells; otherwise silent and dark.
    ``kept_in``: the folder in which every swing is kept with its film; None keeps nothing.
    ``makes_small``: films are made small meanwhile, as a live session does.
    """
    with ExitStack() as stack:
        shown = stack.enter_context(served_clip(clip))
        estimator = stack.enter_context(MediaPipePose())
        ear: Ear | None = None
        speaker: Speaker = Silence()
        screen: BigScreen = NoScreen()
        output_s: float | None = None
        if heard:
            stack.enter_context(surroundings())
            ear = stack.enter_context(listening())
            card = SoundCardSpeaker()
            speaker, output_s, screen = card, card.latency_s, LiveScreen()
        camera = LiveCamera(lambda: open_address(shown.url))
        means = Means(speaker, screen, lambda line: None)
        sets, scorer = [TargetSet("rehearsal", plan)], ProcessScorer()
        keeper: SwingKeeper | None = None
        if kept_in:
            keeping = KeepingMeans(makes_small=makes_small)
            keeper = SwingKeeper(Place(kept_in), shown.url, Reel(camera.ring), keeping)
        session = Session(
            camera, estimator, sets, means, FeedbackMode(), scorer=scorer, keeper=keeper
        )
        fps = _run_until(session, camera, swings)
        delays: list[float | None] = []
        if ear is not None:
            ear.stop()
            delays = _delays(shown, session, impact_frames, ear)
        kept = keeper.summary() if keeper else ()
    return Rehearsed(session.answers.told, tuple(delays), _ms(output_s), fps, kept)


def _ms(seconds: float | None) -> float | None:
    return None if seconds is None else 1000 * seconds


def _run_until(session: Session, camera: LiveCamera, swings: int) -> float | None:
    """Run the session until it has told so many; the camera's rate by then."""
    rates: list[float | None] = []

    def end_it() -> None:
        deadline = time.monotonic() + _MOST_S_A_SWING * swings
        while len(session.answers.told) < swings and time.monotonic() < deadline:
            time.sleep(0.1)
        rates.append(camera.status().fps)
        time.sleep(_TONE_ENDS_S)
        session.stop()

    threading.Thread(target=end_it, daemon=True).start()
    session.run()
    return rates[0] if rates else None


def _delays(
    shown: CameraProcess, session: Session, impact_frames: tuple[int, ...], ear: Ear
) -> list[float | None]:
    """Delays of the impacts shown up to the last swing that was told."""
    until_ns = max((t.timing.scored_ns for t in session.answers.told), default=0)
    sent = impact_sends(shown.sent_ns, shown.clip_frames, impact_frames)
    return end_to_end_ms([at for at in sent if at < until_ns], ear.onsets_ns())
