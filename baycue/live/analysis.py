"""The thread that watches the golfer: pose, presence, segmentation, and scoring at a strike."""

import threading
import time
from collections.abc import Callable, Iterator, Sequence
from functools import partial

from baycue.assemble import SwingMemo
from baycue.bay.board_watch import BoardWatch
from baycue.capture.frame import Frame
from baycue.glimpse import Glimpse, glimpses
from baycue.live.darkroom import Darkroom
from baycue.live.early import EarlyLooks
from baycue.live.fill_in import filled_in
from baycue.live.set_up import SetUpCheck
from baycue.live.stage import GOLFER_STAGE
from baycue.live.timing import SwingTiming
from baycue.live.view import Stage
from baycue.plan.plan import Plan
from baycue.pose.estimator import PoseEstimator
from baycue.spine import ScoredSwing, UnscorableSwing, look_ahead_ns, mended, score_swing
from baycue.swing.segment import StrikeSeen
from baycue.swing.swing import CheckpointName
from baycue.watch import Watch, before_takeaway_ns

OnSwing = Callable[[ScoredSwing | UnscorableSwing, SwingTiming], None]


class Analysis:
    """Looks at the newest frame, again and again, and tells ``on_swing`` of each swing.

    While the club comes down the swing is looked at early, beside the search for poses; while
    it is scored nothing else is looked at: the golfer is following through, and two threads at
    full work would each be slower.  ``plan`` and ``paused`` may be set at any time; a new plan
    counts from the next strike.  ``set_up``: swings are not judged until it is over.  ``board``
    looks for the scale board.
    """

    def __init__(
        self,
        darkroom: Darkroom,
        estimator: PoseEstimator,
        plan: Plan,
        on_swing: OnSwing,
        set_up: SetUpCheck | None = None,
        board: BoardWatch | None = None,
    ) -> None:
        self.plan, self.paused = plan, False
        self.poses = 0
        self.scoring = False
        self.error: BaseException | None = None
        self._darkroom, self._estimator, self._on_swing = darkroom, estimator, on_swing
        self._set_up, self._board = set_up, board
        self._early = EarlyLooks(darkroom.stills.between)
        self._watch, self._swings = Watch(), 0
        self._thread = threading.Thread(target=self._run, name="analysis", daemon=True)
        self._thread.start()

    @property
    def stage(self) -> Stage:
        """What the golfer is doing."""
        return GOLFER_STAGE[self._watch.segment.phase]

    @property
    def swings(self) -> int:
        """Swings judged, or tried to be, so far."""
        return self._swings

    def close(self) -> None:
        """Wait for the thread; the darkroom must have been closed."""
        self._thread.join()
        self._early.close()

    def _run(self) -> None:
        try:
            for frame, glimpse in self._glimpsed():
                self._take(frame, glimpse)
                self.poses += 1
        except BaseException as error:
            self.error = error

    def _glimpsed(self) -> Iterator[tuple[Frame, Glimpse]]:
        """Every glimpse with the frame that it is of."""
        newest: list[Frame] = []

        def kept() -> Iterator[Frame]:
            for frame in self._darkroom.frames():
                newest[:] = [frame]
                yield frame

        for glimpse in glimpses(kept(), self._estimator, self._board):
            yield newest[0], glimpse

    def _take(self, frame: Frame, glimpse: Glimpse) -> None:
        seen_ns = time.monotonic_ns()
        goes_on = _goes_on(self._watch.memory, glimpse)
        if self.paused or not goes_on:
            self._watch = Watch()
        if self._set_up is not None and not goes_on:
            self._set_up.start_anew()
        self._watch, event = self._watch.after(glimpse, look_ahead_ns(self.plan))
        if self._setting_up(frame, glimpse):
            return
        if isinstance(event, StrikeSeen):
            self._swings += 1
            self.scoring = True
            self._score(event, seen_ns)
            self.scoring = False
        else:
            self._early.follow(self._watch, self.plan)

    def _setting_up(self, frame: Frame, glimpse: Glimpse) -> bool:
        """Whether the set-up goes on, this frame looked at."""
        if self._set_up is None or self._set_up.is_over:
            return False
        if not self.paused:
            self._set_up.take(glimpse, frame, self.stage, self.plan)
        return not self._set_up.is_over

    def _score(self, strike: StrikeSeen, seen_ns: int) -> None:
        plan, memory = self.plan, self._watch.memory
        since_ns, until_ns = strike.takeaway_ns - before_takeaway_ns(plan.view), memory[-1].stamp_ns
        memo = self._early.memo_for(plan)
        waited_ns = time.monotonic_ns()
        stills = self._darkroom.stills_between(since_ns, until_ns)
        seen = filled_in(memory, stills, since_ns, partial(mended, plan=plan))
        filled_ns = time.monotonic_ns()
        scored = _scored(self._swings, strike, seen, plan, memo)
        scored_ns = time.monotonic_ns()
        posed = sum(g.stamp_ns >= since_ns for g in memory)
        timing = SwingTiming(
            impact_frame_ns(scored, strike, seen),
            until_ns,
            seen_ns,
            waited_ns,
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
    number: int,
    strike: StrikeSeen,
    seen: tuple[Glimpse, ...],
    plan: Plan,
    memo: SwingMemo | None,
) -> ScoredSwing | UnscorableSwing:
    """Score a swing; a fault of this program on one swing must not end the session."""
    try:
        return score_swing(number, strike, seen, plan, memo)
    except Exception as error:
        fault = f"{type(error).__name__}: {error}".splitlines()[0]
        return UnscorableSwing(number, f"this program failed on it ({fault}); please report it")


def _goes_on(memory: Sequence[Glimpse], glimpse: Glimpse) -> bool:
    """Whether the glimpse is of the same size as those before; another camera's is not."""
    if not memory:
        return True
    last = memory[-1]
    return (last.width_px, last.height_px) == (glimpse.width_px, glimpse.height_px)
