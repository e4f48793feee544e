"""One session in the bay: camera, analysis, sound and screen wired together."""

import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from baycue.capture.camera import CameraStatus, LiveCamera
from baycue.cues.keys import Key
from baycue.cues.speaker import Speaker
from baycue.cues.tones import tone_for
from baycue.errors import BaycueError, OutputError
from baycue.live.analysis import Analysis
from baycue.live.darkroom import Darkroom
from baycue.live.feedback import FeedbackMode, Pending, When
from baycue.live.screen import LiveScreen
from baycue.live.stage import shown_stage
from baycue.live.tally import Tally
from baycue.live.timing import SwingTiming
from baycue.live.view import Health, LiveView, Stage
from baycue.plan.plan import Plan
from baycue.pose.estimator import PoseEstimator
from baycue.spine import ScoredSwing, UnscorableSwing
from baycue.verdict.verdict import Outcome, SwingVerdict

_LOOK_S = 0.02
_TONES = {outcome: tone_for(outcome) for outcome in Outcome}


@dataclass(frozen=True, slots=True)
class TargetSet:
    """A plan and what the screen calls it."""

    name: str
    plan: Plan


@dataclass(frozen=True, slots=True)
class ToldSwing:
    """A swing's answer, when its parts were ready, and when its cue was submitted, ns.

    ``verdict``: None for a swing that could not be judged.  The poses and readings behind it are
    a fifth of a megabyte, so only the newest swing's are kept, in ``Session.newest``.
    """

    verdict: SwingVerdict | None
    timing: SwingTiming
    cue_ns: int | None = None

    @property
    def software_ms(self) -> float | None:
        """From the stamp of the impact frame to the cue submitted."""
        return None if self.cue_ns is None else (self.cue_ns - self.timing.impact_ns) / 1e6


@dataclass(slots=True)
class Means:
    """How the golfer is told: the speaker, the screen, and lines for a terminal."""

    speaker: Speaker
    screen: LiveScreen
    say: Callable[[str], None]


@dataclass(slots=True)
class _Answers:
    """What has been answered so far; guarded by one lock."""

    pending: Pending
    tally: Tally = field(default_factory=Tally)
    verdict: SwingVerdict | None = None
    unscorable: str | None = None
    told: list[ToldSwing] = field(default_factory=list)
    newest: ScoredSwing | UnscorableSwing | None = None
    answered: bool = False
    sound_lost: str | None = None


class Session:
    """Runs until the golfer quits, ``stop`` is called, or a file played as if live is over.

    ``run`` must be called by the main thread, which alone may use the screen.  A verdict due
    at once is sounded by the analysis thread itself, so that drawing cannot delay it.
    """

    def __init__(
        self,
        camera: LiveCamera,
        estimator: PoseEstimator,
        target_sets: Sequence[TargetSet],
        means: Means,
        mode: FeedbackMode,
    ) -> None:
        self._camera, self._means, self._sets = camera, means, tuple(target_sets)
        self._set_number = 0
        self._answers = _Answers(Pending(mode))
        self._lock = threading.Lock()
        self._wake, self._stopping = threading.Event(), threading.Event()
        self.darkroom = Darkroom(camera.ring)
        self.analysis = Analysis(self.darkroom, estimator, self._sets[0].plan, self._known)

    @property
    def told(self) -> tuple[ToldSwing, ...]:
        """All swings so far."""
        with self._lock:
            return tuple(self._answers.told)

    @property
    def newest(self) -> ScoredSwing | UnscorableSwing | None:
        """The last swing with all that is known of it."""
        with self._lock:
            return self._answers.newest

    def stop(self) -> None:
        """End ``run`` soon; from any thread."""
        self._stopping.set()
        self._wake.set()

    def run(self) -> None:
        """Watch, answer and show until the end; raises what stopped the analysis, if anything."""
        try:
            while not self._stopping.is_set():
                self._step()
                self._wake.wait(_LOOK_S)
                self._wake.clear()
        finally:
            self._close()
        if self.analysis.error is not None:
            raise self.analysis.error

    def _step(self) -> None:
        wishes = self._means.screen.keys()
        for key in wishes:
            self._heed(key)
        self._tell_what_is_due()
        status = self._camera.status()
        self._means.screen.show(self._view(status))
        if self.analysis.error is not None or (status.ended and self._all_seen()):
            self.stop()

    def _all_seen(self) -> bool:
        """Whether the last frame of a file that is over has long been looked at."""
        newest = self._camera.ring.wait_beyond(-1, 0.0)[-1:]
        idle_ns = time.monotonic_ns() - newest[0].stamp_ns if newest else 1 << 62
        return idle_ns > 1_500_000_000 and not self.analysis.scoring

    def _heed(self, key: Key) -> None:
        if key is Key.QUIT:
            self.stop()
        elif key is Key.PAUSE:
            self.analysis.paused = not self.analysis.paused
        elif key is Key.ANSWER:
            self._tell_what_is_due(requested=True)
        elif key is Key.NEXT_TARGETS:
            self._set_number = (self._set_number + 1) % len(self._sets)
            self.analysis.plan = self._sets[self._set_number].plan
        elif key is Key.SOUND_CHECK:
            self._sound(Outcome.PASS)

    def _known(self, swing: ScoredSwing | UnscorableSwing, timing: SwingTiming) -> None:
        """A swing has been scored; called by the analysis thread."""
        with self._lock:
            verdict = swing.verdict if isinstance(swing, ScoredSwing) else None
            self._answers.told.append(ToldSwing(verdict, timing))
            self._answers.newest = swing
            if isinstance(swing, ScoredSwing):
                now_ns = time.monotonic_ns()
                self._answers.pending = self._answers.pending.with_verdict(swing.verdict, now_ns)
                self._answers.answered = False
            else:
                self._answers.unscorable = swing.reason
                self._answers.tally = self._answers.tally.after(None)
        if isinstance(swing, UnscorableSwing):
            self._means.say(f"swing {swing.number} cannot be judged: {swing.reason}")
        self._tell_what_is_due()
        self._wake.set()

    def _tell_what_is_due(self, requested: bool = False) -> None:
        with self._lock:
            answers = self._answers
            answers.pending, verdict = answers.pending.told(time.monotonic_ns(), requested)
            if verdict is None:
                return
            self._sound(verdict.outcome)
            cue_ns = time.monotonic_ns()
            answers.verdict, answers.unscorable, answers.answered = verdict, None, True
            answers.tally = answers.tally.after(verdict.outcome)
            answers.told[-1] = replace(answers.told[-1], cue_ns=cue_ns)
            line = _line(verdict, answers.told[-1])
        self._means.say(line)

    def _sound(self, outcome: Outcome) -> None:
        try:
            self._means.speaker.play(_TONES[outcome])
            self._answers.sound_lost = None
        except OutputError as error:
            self._answers.sound_lost = str(error)

    def _view(self, status: CameraStatus) -> LiveView:
        golfer = self.analysis.stage
        with self._lock:
            answers = self._answers
            if golfer is Stage.ADDRESS and not self.analysis.scoring:
                answers.answered = False
            return LiveView(
                stage=shown_stage(status.online, self.analysis.paused, golfer, answers.answered),
                verdict=answers.verdict,
                unscorable=answers.unscorable,
                run_of_passes=answers.tally.run_of_passes,
                passes=answers.tally.passes,
                balls=answers.tally.balls,
                plan_name=self._sets[self._set_number].name,
                notice=status.trouble or self._answer_waits() or None,
                health=self._health(status),
            )

    def _answer_waits(self) -> str:
        pending = self._answers.pending
        asked_for = pending.mode.when is When.ON_REQUEST and pending.verdict is not None
        return "The answer is ready: press A." if asked_for else ""

    def _health(self, status: CameraStatus) -> Health:
        lost = self._answers.sound_lost
        return Health(
            camera_online=status.online,
            camera_fps=None if status.fps is None else round(status.fps),
            dropped_frames=status.dropped + self.darkroom.damaged,
            sound_ok=lost is None,
            sound=lost or self._means.speaker.describe(),
        )

    def _close(self) -> None:
        self._camera.close()
        self.darkroom.close()
        self.analysis.close()
        try:
            self._means.speaker.close()
        except BaycueError as error:
            self._means.say(str(error))
        self._means.screen.close()


def _line(verdict: SwingVerdict, told: ToldSwing) -> str:
    """One line for a terminal."""
    late = "" if told.software_ms is None else f" ({told.software_ms:.0f} ms after impact)"
    return f"swing {verdict.swing_number}: {verdict.outcome.value.upper()}{late}. {verdict.reason}"
