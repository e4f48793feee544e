"""The golfer's last seconds laid out, and the scoring of a swing from them.

Most of a swing's work is done while the club comes down, piece by piece; whoever does it may be
called away between any two pieces, and what is done stays done.
"""

import time
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

from baycue.assemble import SwingMemo, swing_memo
from baycue.glimpse import Glimpse
from baycue.live.fill_in import filled_in
from baycue.live.still import Still
from baycue.live.timing import SwingTiming
from baycue.plan.plan import Plan
from baycue.spine import (
    FinishedSwing,
    ScoredSwing,
    UnscorableSwing,
    look_early,
    mended,
    score_swing,
    seen_on,
)
from baycue.swing.events import FinishSeen, StrikeSeen, ThroughSeen
from baycue.swing.swing import CheckpointName
from baycue.watch import before_takeaway_ns


@dataclass(frozen=True, slots=True)
class Shown:
    """One more glimpse, and the stills of the frames since the one before.

    ``oldest_ns``: what is older is to be forgotten.  ``coming_down``: the swing under way.
    """

    glimpse: Glimpse
    skipped: tuple[Still, ...]
    oldest_ns: int
    coming_down: StrikeSeen | None = None


@dataclass(frozen=True, slots=True)
class Expected:
    """Stills of the frames since the last glimpse, whose poses are not known yet.

    What hangs on the pictures alone can be done meanwhile.  ``ends``: all have come that others
    wait for, if the next glimpse completes the swing.
    """

    stills: tuple[Still, ...]
    ends: bool


_NOTHING_AHEAD = Expected((), ends=False)


@dataclass(frozen=True, slots=True)
class Struck:
    """A swing has come back to the ball.  ``late``: stills that came after their time."""

    number: int
    strike: StrikeSeen
    seen_ns: int
    late: tuple[Still, ...] = ()


@dataclass(frozen=True, slots=True)
class Scoring:
    """A swing's answer, and where the time went."""

    swing: ScoredSwing | UnscorableSwing
    timing: SwingTiming


@dataclass(frozen=True, slots=True)
class _Scored:
    """The swing last scored and what it was scored from."""

    swing: ScoredSwing
    strike: StrikeSeen
    plan: Plan
    memo: SwingMemo


class OvertakenError(Exception):
    """Something more urgent has come."""


class Desk:
    """Used by one thread.  ``overtaken``: asked between pieces of an early look."""

    def __init__(self, overtaken: Callable[[], bool] = lambda: False) -> None:
        self.shown: deque[Shown] = deque()
        self._overtaken = overtaken
        self._plan: Plan | None = None
        self._memo: SwingMemo | None = None
        self._early = False
        self._to_look_at: Shown | None = None
        self._ahead = _NOTHING_AHEAD
        self._last: _Scored | None = None

    @property
    def can_look(self) -> bool:
        """Whether an early look would do anything."""
        return self._to_look_at is not None

    def take(self, shown: Shown, plan: Plan) -> None:
        """One more glimpse, judged by this plan from now on."""
        while self.shown and self.shown[0].glimpse.stamp_ns < shown.oldest_ns:
            self.shown.popleft()
        self.shown.append(shown)
        if shown.coming_down is None:
            self._memo = None
        elif self._memo is None or plan is not self._plan:
            # To let go of the swing before takes some ms, for which there is time now.
            self._last, self._memo = None, swing_memo(self._before_work)
        self._plan = plan
        self._to_look_at = shown if self._memo else None
        self._ahead = _NOTHING_AHEAD

    def expect(self, expected: Expected) -> None:
        """Pictures have come of which there is no glimpse yet."""
        if self._memo is not None and not self._ahead.ends:
            self._to_look_at, self._ahead = self.shown[-1], expected

    def look(self) -> None:
        """Work out what can be known of the swing under way, until overtaken."""
        shown, self._to_look_at = self._to_look_at, None
        if shown is None or shown.coming_down is None or self._memo is None or self._plan is None:
            return
        self._early = True
        try:
            self._look(shown.coming_down, self._plan, self._memo)
        except OvertakenError:
            self._to_look_at = shown
        finally:
            self._early = False

    def _look(self, strike: StrikeSeen, plan: Plan, memo: SwingMemo) -> None:
        known = self._filled(strike, plan)
        guesses = _guessed(self.shown[-1].glimpse, self._ahead.stills)
        look_early(strike, (*known, *guesses), plan, memo, len(guesses), self._ahead.ends)

    def score(self, struck: Struck) -> Scoring:
        """The swing that has just come back to the ball."""
        begun_ns = time.monotonic_ns()
        assert self._plan is not None, "a strike is seen in a glimpse that was taken"
        plan, memo = self._plan, self._memo or swing_memo()
        seen = self._filled(struck.strike, plan, struck.late)
        filled_ns = time.monotonic_ns()
        swing = _scored(struck, seen, plan, memo)
        timing = self._timing(struck, swing, seen, begun_ns, filled_ns)
        self._to_look_at, self._memo = None, None
        self._last = None
        if isinstance(swing, ScoredSwing):
            self._last = _Scored(swing, struck.strike, plan, memo)
        return Scoring(swing, timing)

    def after(self, event: ThroughSeen | FinishSeen) -> FinishedSwing | None:
        """The last swing with its P8 or finish; None if that tells nothing new."""
        last = self._last
        if last is None:
            return None
        swing = self._seen_on(last, event)
        if swing is last.swing:
            return None
        self._last = _Scored(swing, last.strike, last.plan, last.memo)
        return FinishedSwing(swing)

    def _seen_on(self, last: _Scored, event: ThroughSeen | FinishSeen) -> ScoredSwing:
        """A fault on what comes after the verdict costs a checkpoint, not the session."""
        seen = self._filled(last.strike, last.plan)
        try:
            return seen_on(last.swing, last.strike, event, seen, last.plan, last.memo)
        except Exception:
            return last.swing

    def _before_work(self) -> None:
        if self._early and self._overtaken():
            raise OvertakenError

    def _filled(
        self, strike: StrikeSeen, plan: Plan, late: tuple[Still, ...] = ()
    ) -> tuple[Glimpse, ...]:
        """The swing's glimpses so far, with those of frames that the pose model skipped."""
        memory = [s.glimpse for s in self.shown]
        stills = sorted((*late, *(s for each in self.shown for s in each.skipped)), key=_stamp_ns)
        since_ns = strike.takeaway_ns - before_takeaway_ns(plan.view)
        return filled_in(memory, stills, since_ns, partial(mended, plan=plan))

    def _timing(
        self,
        struck: Struck,
        swing: ScoredSwing | UnscorableSwing,
        seen: Sequence[Glimpse],
        begun_ns: int,
        filled_ns: int,
    ) -> SwingTiming:
        assert self._plan is not None, "a swing is timed that was scored"
        since_ns = struck.strike.takeaway_ns - before_takeaway_ns(self._plan.view)
        posed = sum(s.glimpse.stamp_ns >= since_ns for s in self.shown)
        return SwingTiming(
            impact_ns=impact_frame_ns(swing, struck.strike, seen),
            trigger_ns=self.shown[-1].glimpse.stamp_ns,
            seen_ns=struck.seen_ns,
            begun_ns=begun_ns,
            filled_ns=filled_ns,
            scored_ns=time.monotonic_ns(),
            frames=len(seen),
            posed=posed,
        )


def impact_frame_ns(
    scored: ScoredSwing | UnscorableSwing, strike: StrikeSeen, seen: Sequence[Glimpse]
) -> int:
    """The stamp of the first frame at or after impact; where none is known, of the return."""
    at_ns = strike.return_ns
    if isinstance(scored, ScoredSwing):
        impact = scored.evidence.swing.at(CheckpointName.IMPACT)
        at_ns = impact.time_ns if impact else at_ns
    return next((g.stamp_ns for g in seen if g.stamp_ns >= at_ns), seen[-1].stamp_ns)


def _guessed(last: Glimpse, stills: Sequence[Still]) -> list[Glimpse]:
    """Glimpses of the frames after the last one, with its pose for a guess."""
    return [
        replace(
            last,
            frame_index=s.index,
            stamp_ns=s.stamp_ns,
            grey=s.grey,
            pose=last.pose and replace(last.pose, frame_index=s.index, stamp_ns=s.stamp_ns),
        )
        for s in stills
        if s.stamp_ns > last.stamp_ns and s.grey.shape == last.grey.shape
    ]


def _stamp_ns(still: Still) -> int:
    return still.stamp_ns


def _scored(
    struck: Struck, seen: tuple[Glimpse, ...], plan: Plan, memo: SwingMemo
) -> ScoredSwing | UnscorableSwing:
    """Score a swing; a fault of this program on one swing must not end the session."""
    try:
        return score_swing(struck.number, struck.strike, seen, plan, memo)
    except Exception as error:
        fault = f"{type(error).__name__}: {error}".splitlines()[0]
        return UnscorableSwing(
            struck.number, f"this program failed on it ({fault}); please report it"
        )
