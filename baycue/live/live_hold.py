"""A hold as the live loop guides it: what was seen last, and the tone that tells of it."""

import time

from baycue.cues.guide_tone import voice_of
from baycue.cues.speaker import Guide
from baycue.glimpse import Glimpse
from baycue.plan.plan import Plan
from baycue.plan.practice_block import PracticeDrill
from baycue.practice.hold import Guidance
from baycue.practice.hold_watch import HoldWatch, hold_watch

_UNSEEN_NS = 500_000_000
"""So long without a golfer the tone is silent."""


class LiveHold:
    """``watched`` is for the thread that watches; all else under its owner's lock."""

    def __init__(self, guide: Guide) -> None:
        self._guide = guide
        self._watch: HoldWatch | None = None
        self._guidance: Guidance | None = None
        self._seen_ns = 0

    def watched(
        self, plan: Plan, drill: PracticeDrill, glimpse: Glimpse
    ) -> tuple[HoldWatch, Guidance | None]:
        """Look at one more glimpse, which may take as long as finding a pose; changes nothing."""
        return (self._watch or hold_watch(plan, drill)).after(glimpse)

    def take(self, watch: HoldWatch, guidance: Guidance | None, silent: bool) -> bool:
        """What was watched counts, and sounds unless ``silent``; whether a hold counts now."""
        self._watch = watch
        if guidance is not None:
            self._guidance, self._seen_ns = guidance, time.monotonic_ns()
        told = None if silent else self._guidance
        self._guide.guide(None if told is None else voice_of(told))
        return guidance is not None and guidance.counts and not silent

    def guidance(self) -> Guidance | None:
        """Where the golfer is; none, and no tone, if not seen for a while."""
        if self._guidance is not None and time.monotonic_ns() - self._seen_ns > _UNSEEN_NS:
            self.be_quiet()
        return self._guidance

    def be_quiet(self) -> None:
        """No tone until a golfer is seen again."""
        self._guidance = None
        self._guide.guide(None)

    def end(self) -> None:
        """Something else is next: what was seen of this hold counts no more."""
        self._watch = None
        self.be_quiet()
