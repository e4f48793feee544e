"""The sessions of all plans that are open, each where its golfer left it."""

from collections.abc import Sequence

from baycue.cues.speaker import Guide
from baycue.keep.resume import Resumed
from baycue.keep.standing import PracticePlace
from baycue.live.plans import TargetSet
from baycue.live.practice import LivePractice, OnHeld, goes_in, live_practice
from baycue.plan.plan import Plan
from baycue.practice.history import PassHistory


class Practices:
    """One session for each plan with a practice section; arguments as ``LivePractice``.

    ``resumed``: where they were when a session was cut off.
    """

    def __init__(
        self,
        sets: Sequence[TargetSet],
        guide: Guide,
        on_held: OnHeld,
        passed: PassHistory | None = None,
        resumed: Resumed | None = None,
    ) -> None:
        self._guide, self._on_held, self._passed = guide, on_held, passed
        self._all = [self._started(each.plan) for each in sets]
        for place in resumed.standing.places if resumed else ():
            practice = self._all[place.plan] if place.plan < len(self._all) else None
            if practice and resumed:
                practice.go_on(place.goes, place.number, place.done, resumed.goes)

    def places(self) -> tuple[PracticePlace, ...]:
        """How far each is."""
        found = ((k, practice.walk) for k, practice in enumerate(self._all) if practice)
        return tuple(PracticePlace(k, goes_in(walk), walk.number, walk.done) for k, walk in found)

    def of(self, number: int) -> LivePractice | None:
        """The session of the plan in that place; None for full swings for ever."""
        return self._all[number]

    def take(self, number: int, plan: Plan) -> None:
        """A plan that the coach may have saved."""
        practice = self._all[number]
        if practice is None or plan.practice is None:
            self._all[number] = self._started(plan)
        else:
            practice.take(plan)

    def in_the_end(self) -> tuple[str, ...]:
        """For the coach: how silent blocks went, and how every plan's targets with a rule stand."""
        practices = [practice for practice in self._all if practice]
        return tuple(line for p in practices for line in (*p.retention(), *p.progress()))

    def _started(self, plan: Plan) -> LivePractice | None:
        return live_practice(plan, self._guide, self._on_held, self._passed)
