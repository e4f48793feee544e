"""The thread that watches the golfer: pose, presence, segmentation, and scoring at a strike."""

import threading
import time
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from typing import Protocol

from baycue.bay.board_watch import BoardWatch
from baycue.capture.frame import Frame
from baycue.club.background import GreyPicture
from baycue.glimpse import Glimpse, glimpses, small_grey
from baycue.live.darkroom import Darkroom
from baycue.live.desk import Expected, Shown, Struck
from baycue.live.pacing import Pacing
from baycue.live.scorer import Scorer
from baycue.live.set_up import SetUpCheck
from baycue.live.stage import GOLFER_STAGE
from baycue.live.still import Still
from baycue.live.timing import SwingTiming
from baycue.live.view import Stage
from baycue.plan.plan import Plan
from baycue.pose.estimator import PoseEstimator
from baycue.pose.pose import Pose
from baycue.spine import ScoredSwing, UnscorableSwing, look_ahead_ns, mended
from baycue.swing.events import StopSeen, StrikeSeen, SwingEvent
from baycue.swing.strike_due import CARRIED_NS, strike_so_far
from baycue.watch import Watch, before_takeaway_ns

OnSwing = Callable[[ScoredSwing | UnscorableSwing, SwingTiming, Plan], None]


class Drilling(Protocol):
    """What the golfer practises, as far as it concerns who watches."""

    @property
    def wants_stops(self) -> bool:
        """Whether a club that stays at the ball is a swing to judge."""

    def look(self, glimpse: Glimpse) -> None:
        """One more glimpse of a golfer who may be holding still."""


_SHOWN_KEPT = 2000
"""Numbers of stills sent over; more than any camera gives in the seconds that a swing takes."""


class Analysis:
    """Looks at the newest frame, again and again, and tells ``on_swing`` of each swing.

    The scorer looks at a swing while it comes down, beside the search for poses; while it scores
    nothing else is looked at: the golfer is following through, and two at full work would each
    be slower.  ``plan`` and ``paused`` may be set at any time; a new plan counts
    from the next strike.  ``set_up``: swings are not judged until it is over.  ``board`` looks for
    the scale board.  ``drilling``: None for full swings for ever.  ``stopped``: whether the last
    swing stayed at the ball.  ``swings``: so many a session that goes on has seen.
    """

    def __init__(
        self,
        darkroom: Darkroom,
        estimator: PoseEstimator,
        plan: Plan,
        on_swing: OnSwing,
        scorer: Scorer,
        set_up: SetUpCheck | None = None,
        board: BoardWatch | None = None,
        drilling: Drilling | None = None,
        swings: int = 0,
    ) -> None:
        self.plan, self.paused = plan, False
        self.drilling, self.stopped = drilling, False
        self.poses = 0
        self.scoring = False
        self.error: BaseException | None = None
        self._darkroom, self._estimator, self._on_swing = darkroom, estimator, on_swing
        self._scorer, self._set_up, self._board = scorer, set_up, board
        self._shown: deque[int] = deque(maxlen=_SHOWN_KEPT)
        self._watch, self._swings, self._pacing = Watch(), swings, Pacing()
        self._posing_ns: int | None = None
        darkroom.on_still = self._has_come
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

    def poses_since(self, stamp_ns: int) -> tuple[Pose, ...]:
        """The golfer's poses after a stamp, hands and sides put right; from any thread."""
        poses = [g.pose for g in self._watch.memory if g.pose]
        right = mended(poses, self.plan) if poses else ()
        return tuple(p for p in right if p.stamp_ns > stamp_ns)

    def close(self) -> None:
        """Wait for the thread; the darkroom must have been closed."""
        self._thread.join()

    def _run(self) -> None:
        try:
            for frame, glimpse in self._glimpsed():
                self._take(frame, glimpse)
                self.poses += 1
        except BaseException as error:
            self.error = error

    def _glimpsed(self) -> Iterator[tuple[Frame, Glimpse]]:
        """Every glimpse with the frame that it is of."""
        given: list[Frame] = []

        def kept() -> Iterator[Frame]:
            for frame in self._darkroom.frames():
                now_ns = time.monotonic_ns()
                spared = self._is_spared(frame, now_ns)
                self._posing_ns = None if spared else frame.stamp_ns
                self._announce(frame.stamp_ns)
                if not spared:
                    given[:] = [frame]
                    yield frame
                    # With all that is done before the next can be posed.
                    self._pacing = self._pacing.posed(time.monotonic_ns() - now_ns)

        for glimpse in glimpses(kept(), self._estimator, self._board, self._grey_of):
            self._posing_ns = None
            yield given[0], glimpse

    def _grey_of(self, frame: Frame) -> GreyPicture:
        """The darkroom's picture, which may have been sent already."""
        stills = self._darkroom.stills.between(frame.stamp_ns, frame.stamp_ns)
        return stills[0].grey if stills else small_grey(frame)

    def _is_spared(self, frame: Frame, now_ns: int) -> bool:
        """Whether a frame is left to ``filled_in``, so that a strike is told the sooner."""
        self._pacing = self._pacing.seen(frame.index, frame.stamp_ns)
        return self._pacing.is_spared(self._watch.segment, look_ahead_ns(self.plan), now_ns)

    def _has_come(self, still: Still) -> None:
        """One more picture, while the one before is being posed; in the darkroom's thread."""
        posing_ns = self._posing_ns
        if posing_ns is not None and posing_ns < still.stamp_ns <= posing_ns + CARRIED_NS:
            self._announce(still.stamp_ns)

    def _announce(self, stamp_ns: int) -> None:
        """Tell the scorer of a picture of the way down before its pose is found, if it is."""
        watch = self._watch
        if strike_so_far(watch.segment) is not None:
            stills = self._darkroom.stills.between(watch.memory[-1].stamp_ns + 1, stamp_ns)
            ends = self._pacing.ends(
                watch.segment, self._posing_ns, stamp_ns, look_ahead_ns(self.plan)
            )
            self._scorer.expect(Expected(stills, ends))

    def _pictured_ns(self, glimpse: Glimpse) -> int:
        """Until when there are pictures that a swing can be told with, no pose but this yet."""
        since_ns = glimpse.stamp_ns
        stills = self._darkroom.stills.between(since_ns, since_ns + CARRIED_NS)
        return stills[-1].stamp_ns if stills else since_ns

    def _take(self, frame: Frame, glimpse: Glimpse) -> None:
        seen_ns = time.monotonic_ns()
        goes_on = _goes_on(self._watch.memory, glimpse)
        if self.paused or not goes_on:
            self._watch = Watch()
        if self._set_up is not None and not goes_on:
            self._set_up.start_anew()
        plan = self.plan
        shown_until_ns = self._watch.memory[-1].stamp_ns if self._watch.memory else None
        pictured_ns = self._pictured_ns(glimpse)
        self._watch, event = self._watch.after(glimpse, look_ahead_ns(plan), pictured_ns)
        setting_up = self._setting_up(frame, glimpse)
        strike = _struck(event) or strike_so_far(self._watch.segment)
        self._show(glimpse, shown_until_ns, None if setting_up else strike, plan)
        if not setting_up:
            self._heed(event, seen_ns, plan)
            self._guide(glimpse)

    def _show(
        self, glimpse: Glimpse, since_ns: int | None, strike: StrikeSeen | None, plan: Plan
    ) -> None:
        """Show the scorer a glimpse, with the frames that were skipped before it."""
        skipped: tuple[Still, ...] = ()
        if since_ns is not None:
            skipped = self._darkroom.stills.between(since_ns + 1, glimpse.stamp_ns - 1)
        oldest_ns = self._watch.memory[0].stamp_ns
        self._scorer.follow(Shown(glimpse, skipped, oldest_ns, strike), plan)
        self._shown.extend(s.index for s in skipped)

    def _heed(self, event: SwingEvent | None, seen_ns: int, plan: Plan) -> None:
        drilling = self.drilling
        if isinstance(event, StrikeSeen):
            self._judge(event, seen_ns, plan)
        elif isinstance(event, StopSeen):
            if drilling is not None and drilling.wants_stops:
                self._judge(event.strike, seen_ns, plan)
        elif event is not None:
            self._scorer.after(event)

    def _judge(self, strike: StrikeSeen, seen_ns: int, plan: Plan) -> None:
        self._swings += 1
        self.scoring, self.stopped = True, strike.stops
        self._score(strike, seen_ns, plan)
        self.scoring = False

    def _guide(self, glimpse: Glimpse) -> None:
        if self.drilling is not None and not self.paused:
            self.drilling.look(glimpse)

    def _setting_up(self, frame: Frame, glimpse: Glimpse) -> bool:
        """Whether the set-up goes on, this frame looked at."""
        if self._set_up is None or self._set_up.is_over:
            return False
        if not self.paused:
            self._set_up.take(glimpse, frame, self.stage, self.plan)
        return not self._set_up.is_over

    def _score(self, strike: StrikeSeen, seen_ns: int, plan: Plan) -> None:
        memory = self._watch.memory
        since_ns = strike.takeaway_ns - before_takeaway_ns(plan.view)
        until_ns = self._pictured_ns(memory[-1])
        known = {*self._shown, *(g.frame_index for g in memory)}
        stills = self._darkroom.stills_between(since_ns, until_ns)
        late = tuple(s for s in stills if s.index not in known)
        scoring = self._scorer.score(Struck(self._swings, strike, seen_ns, late))
        self._on_swing(scoring.swing, scoring.timing, plan)


def _struck(event: SwingEvent | None) -> StrikeSeen | None:
    """The swing that an event completes."""
    if isinstance(event, StopSeen):
        return event.strike
    return event if isinstance(event, StrikeSeen) else None


def _goes_on(memory: Sequence[Glimpse], glimpse: Glimpse) -> bool:
    """Whether the glimpse is of the same size as those before; another camera's is not."""
    if not memory:
        return True
    last = memory[-1]
    return (last.width_px, last.height_px) == (glimpse.width_px, glimpse.height_px)
