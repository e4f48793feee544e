"""The plans of a session: which one is on, and what the coach saves, taken between swings."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from baycue.keep.record import DrillPlace, PlanText
from baycue.plan.camera_facts import ScaleBy
from baycue.plan.plan import Plan
from baycue.plan.target import Target
from baycue.plan.watch import PlanNews, PlanWatch

_LOOK_EVERY_NS = 500_000_000
_SHOWN_NS = 5_000_000_000


@dataclass(frozen=True, slots=True)
class TargetSet:
    """A plan and what the screen calls it; ``watch`` tells when its file has been saved."""

    name: str
    plan: Plan
    watch: PlanWatch | None = None


class Plans:
    """One or more target sets, of which one is on.

    ``say`` gets lines for a terminal.  Used by the session's main thread alone.
    """

    def __init__(self, sets: Sequence[TargetSet], say: Callable[[str], None]) -> None:
        self._sets, self._say = tuple(sets), say
        self._plans = [each.plan for each in self._sets]
        self._texts = [(each.plan, _text(each)) for each in self._sets]
        self._faults: dict[int, str] = {}
        self._on = 0
        self._looked_ns: int | None = None
        self._taken_ns: int | None = None
        self._board = any(plan.scale.by is ScaleBy.BOARD for plan in self._plans)

    @property
    def plan(self) -> Plan:
        """The one that is on."""
        return self._plans[self._on]

    @property
    def number(self) -> int:
        """Its place among the sets, from 0."""
        return self._on

    @property
    def name(self) -> str:
        """What the screen calls it."""
        return self._sets[self._on].name

    def written(self, plan: Plan) -> tuple[PlanText, DrillPlace | None]:
        """As what a plan that has been on, or is for a drill of one, was written; any thread.

        With the place of the drill whose own targets it has, if it has some.
        """
        for each, text in reversed(tuple(self._texts)):
            if each is plan or each.targets is plan.targets:
                return text, None
            place = _drill_with(each, plan.targets)
            if place is not None:
                return text, place
        return self._texts[self._on][1], None

    def turn_over(self) -> Plan:
        """Go on to the next one."""
        self._on = (self._on + 1) % len(self._sets)
        return self.plan

    def look(self, now_ns: int, between_swings: bool) -> Plan | None:
        """Take what was saved; the plan that is on, if that brought another one.

        In the middle of a swing nothing is looked at: a swing is judged by one plan throughout.
        """
        early = self._looked_ns is not None and now_ns - self._looked_ns < _LOOK_EVERY_NS
        if early or not between_swings:
            return None
        self._looked_ns, before = now_ns, self.plan
        for number, each in enumerate(self._sets):
            news = each.watch.news() if each.watch else None
            if news is not None:
                self._take(number, news, now_ns)
        return None if self.plan is before else self.plan

    def notice(self, now_ns: int) -> str | None:
        """What the screen says of the plan that is on: why an edit was not taken, as long as
        that stands, or for some seconds that one was.
        """
        fault = self._faults.get(self._on)
        if fault is not None:
            return f"Old plan kept: {fault}"
        fresh = self._taken_ns is not None and now_ns - self._taken_ns < _SHOWN_NS
        return "The new plan counts from now on." if fresh else None

    def _take(self, number: int, news: PlanNews, now_ns: int) -> None:
        name = self._sets[number].name
        if news.plan is None:
            self._faults[number] = news.briefly
            self._tell([*news.faults, f"plan {name}: not taken; the one before goes on"])
            return
        self._faults.pop(number, None)
        self._plans[number] = news.plan
        self._texts.append((news.plan, _text(self._sets[number])))
        self._taken_ns = now_ns if number == self._on else self._taken_ns
        self._tell([f"plan {name}: saved and taken; {_count(news.plan)} from the next swing on"])
        if news.plan.scale.by is ScaleBy.BOARD and not self._board:
            self._tell([f"plan {name}: the board is looked for only after the next start"])

    def _tell(self, lines: Sequence[str]) -> None:
        for line in lines:
            self._say(line)


def _text(target_set: TargetSet) -> PlanText:
    """What the file says now; nothing for a plan that is in no file."""
    return PlanText(target_set.name, target_set.watch.text if target_set.watch else "")


def _drill_with(plan: Plan, targets: tuple[Target, ...]) -> DrillPlace | None:
    """The first of the plan's drills that has these very targets for its own."""
    blocks = plan.practice.blocks if plan.practice else ()
    for number, block in enumerate(blocks):
        for place, drill in enumerate(block.drills):
            if drill.targets is targets:
                return DrillPlace(number, place)
    return None


def _count(plan: Plan) -> str:
    number = len(plan.targets)
    return f"{number} target{'s' if number > 1 else ''}"
