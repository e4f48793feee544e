"""Most of a swing's work done while the club comes down, beside the search for poses."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from baycue.assemble import SwingMemo
from baycue.live.fill_in import filled_in, settled
from baycue.live.still import Still
from baycue.live.worker import Worker
from baycue.plan.plan import Plan
from baycue.spine import look_early, mended
from baycue.swing.segment import strike_so_far
from baycue.watch import BEFORE_TAKEAWAY_NS, Watch

LOOKS_A_SWING = 1
"""The first look, as the club starts down, does most of what can be done, and takes about as long
as the downswing.  Measured on two busy cores, six swings a run at 30 and 60 frames a second: with a
look at every frame one was always under way at the strike, and the answer came no sooner."""

StillsBetween = Callable[[int, int], tuple[Still, ...]]


@dataclass(frozen=True, slots=True)
class _Look:
    watch: Watch
    plan: Plan
    memo: SwingMemo


class EarlyLooks:
    """Looks at a swing while it comes down, in a thread of its own.

    ``stills_between``: the pictures there are between two stamps.  A memo is used by that
    thread only, until ``memo_for`` has waited for it and hands the memo over.
    """

    def __init__(self, stills_between: StillsBetween) -> None:
        self._stills_between = stills_between
        self._memo: SwingMemo | None = None
        self._plan: Plan | None = None
        self._looks_left = 0
        self._worker: Worker[_Look] = Worker(self._look, "early looks")

    @property
    def error(self) -> Exception | None:
        """What went wrong in a look; the swing is scored without it."""
        return self._worker.error

    def follow(self, watch: Watch, plan: Plan) -> None:
        """If a swing is coming down, have it looked at; any other ends the memo."""
        if strike_so_far(watch.segment) is None:
            self._memo = None
            return
        if self._memo is None or self._plan is not plan:
            self._memo, self._plan, self._looks_left = SwingMemo(), plan, LOOKS_A_SWING
        if self._looks_left:
            self._looks_left -= 1
            self._worker.ask(_Look(watch, plan, self._memo))

    def memo_for(self, plan: Plan) -> SwingMemo | None:
        """What is known of the swing that has just come down; None if nothing, or too little."""
        self._worker.settle()
        memo, self._memo = self._memo, None
        return memo if self._plan is plan else None

    def close(self) -> None:
        """End the thread."""
        self._worker.close()

    def _look(self, look: _Look) -> None:
        strike, memory = strike_so_far(look.watch.segment), look.watch.memory
        if strike is None:
            return
        since_ns = strike.takeaway_ns - BEFORE_TAKEAWAY_NS
        stills = self._stills_between(since_ns, memory[-1].stamp_ns)
        filled = filled_in(memory, stills, since_ns, partial(mended, plan=look.plan))
        look_early(look.watch.segment, settled(filled, memory), look.plan, look.memo)
