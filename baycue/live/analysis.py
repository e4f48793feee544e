"""The thread that watches the golfer: pose, presence, segmentation, and scoring at a strike."""

import threading
import time
from collections.abc import Callable, Sequence

from baycue.glimpse import Glimpse, glimpses
from baycue.live.darkroom import Darkroom
from baycue.live.fill_in import filled_in
from baycue.live.timing import SwingTiming
from baycue.live.view import Stage
from baycue.live.watch import BEFORE_TAKEAWAY_NS, Watch
from baycue.plan.plan import Plan
from baycue.pose.estimator import PoseEstimator
from baycue.spine import ScoredSwing, UnscorableSwing, score_swing
from baycue.swing.segment import StrikeSeen
from baycue.swing.swing import CheckpointName

OnSwing = Callable[[ScoredSwing | UnscorableSwing, SwingTiming], None]


class Analysis:
    """Looks at the newest frame, again and again, and tells ``on_swing`` of each swing.

    While a swing is scored nothing else is looked at: the golfer is following through, and
    two threads at full work would each be slower.  ``plan`` and ``paused`` may be set at any
    time; a new plan counts from the next strike.
    """

    def __init__(
        self, darkroom: Darkroom, estimator: PoseEstimator, plan: Plan, on_swing: OnSwing
    ) -> None:
        self.plan, self.paused = plan, False
        self.poses = 0
        self.scoring = False
        self.error: BaseException | None = None
        self._darkroom, self._estimator, self._on_swing = darkroom, estimator, on_swing
        self._watch, self._swings = Watch(), 0
        self._thread = threading.Thread(target=self._run, name="analysis", daemon=True)
        self._thread.start()

    @property
    def stage(self) -> Stage:
        """What the golfer is doing."""
        return self._watch.stage

    @property
    def swings(self) -> int:
        """Swings seen so far."""
        return self._swings

    def close(self) -> None:
        """Wait for the thread; the darkroom must have been closed."""
        self._thread.join()

    def _run(self) -> None:
        try:
            for glimpse in glimpses(self._darkroom.frames(), self._estimator):
                self._take(glimpse)
                self.poses += 1
        except BaseException as error:
            self.error = error

    def _take(self, glimpse: Glimpse) -> None:
        seen_ns = time.monotonic_ns()
        if self.paused or not _goes_on(self._watch.memory, glimpse):
            self._watch = Watch()
        self._watch, event = self._watch.after(glimpse)
        if isinstance(event, StrikeSeen):
            self._swings += 1
            self.scoring = True
            self._score(event, seen_ns)
            self.scoring = False

    def _score(self, strike: StrikeSeen, seen_ns: int) -> None:
        memory, since_ns = self._watch.memory, strike.takeaway_ns - BEFORE_TAKEAWAY_NS
        until_ns = memory[-1].stamp_ns
        seen = filled_in(memory, self._darkroom.stills_between(since_ns, until_ns), since_ns)
        filled_ns = time.monotonic_ns()
        scored = _scored(self._swings, strike, seen, self.plan)
        scored_ns = time.monotonic_ns()
        posed = sum(g.stamp_ns >= since_ns for g in memory)
        timing = SwingTiming(
            impact_frame_ns(scored, strike, seen),
            until_ns,
            seen_ns,
            filled_ns,
            scored_ns,
            len(seen),
            posed,
        )
        self._on_swing(scored, timing)


def impact_frame_ns(
    scored: ScoredSwing | UnscorableSwing, strike: StrikeSeen, seen: Sequence[Glimpse]
) -> int:
    """The stamp of the first frame at or after impact; where none is known, of the return."""
    at_ns = strike.return_ns
    if isinstance(scored, ScoredSwing):
        impact = scored.evidence.swing.at(CheckpointName.IMPACT)
        at_ns = impact.time_ns if impact else at_ns
    return next((g.stamp_ns for g in seen if g.stamp_ns >= at_ns), seen[-1].stamp_ns)


def _scored(
    number: int, strike: StrikeSeen, seen: tuple[Glimpse, ...], plan: Plan
) -> ScoredSwing | UnscorableSwing:
    """Score a swing; a fault of this program on one swing must not end the session."""
    try:
        return score_swing(number, strike, seen, plan)
    except Exception as error:
        fault = f"{type(error).__name__}: {error}".splitlines()[0]
        return UnscorableSwing(number, f"this program failed on it ({fault}); please report it")


def _goes_on(memory: Sequence[Glimpse], glimpse: Glimpse) -> bool:
    """Whether the glimpse is of the same size as those before; another camera's is not."""
    if not memory:
        return True
    last = memory[-1]
    return (last.width_px, last.height_px) == (glimpse.width_px, glimpse.height_px)
