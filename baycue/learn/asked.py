"""What is looked at in every recording: a measure, and the moment at which plans usually ask it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from baycue.errors import BaycueError
from baycue.measures.catalogue import measure_named, measures
from baycue.measures.measure import Measure
from baycue.measures.measurement import Unit
from baycue.plan.document import Data
from baycue.plan.plan import Plan
from baycue.plan.stance import View
from baycue.plan.target import Target
from baycue.plan.words import guess

_WHEN_KEYS = (
    "at",
    "from",
    "to",
    "largest_between",
    "least_between",
    "furthest_between",
    "against",
)
_ANY_BOUND = {Unit.METRE: "0 cm", Unit.DEGREE: "0 deg", Unit.RATIO: "0", Unit.SECOND: "0 ms"}
_USUALLY_AT = {"head rise": "impact", "handle lean": "impact", "hand path out": "P2"}
_ELSE_AT = {View.FACE_ON: "P6", View.DOWN_THE_LINE: "impact"}


@dataclass(frozen=True, slots=True)
class Asked:
    """A measure at a moment.  ``keys``: the plan's keys that say when, as they are written.

    ``in_plan``: the number, from 1, of the plan's target that asks the same; 0 if none does.
    """

    target: Target
    keys: dict[str, Data]
    view: View
    in_plan: int = 0

    @property
    def measure(self) -> Measure:
        """What is measured."""
        found = measure_named(self.target.measure)
        assert found is not None, "targets are checked against the catalogue"
        return found


def asked_of(plan: Plan, written: Data, only: Iterable[str] = ()) -> tuple[Asked, ...]:
    """The plan's own targets, then every other measure of its view at its usual moment.

    ``written``: the targets as the file has them.  ``only``: the measures to keep; none for all.
    BaycueError for one that is not known or that the view does not show.
    """
    wanted = [_known(name, plan.view) for name in only]
    own = list(_own(plan, written))
    named = {asked.target.measure for asked in own}
    others = [_usual(m, plan.view) for m in measures() if plan.view in m.views]
    found = [*own, *(asked for asked in others if asked.target.measure not in named)]
    return tuple(a for a in found if not wanted or a.target.measure in wanted)


def usual_keys(measure: Measure, view: View) -> dict[str, Data]:
    """When a plan usually takes a measure (common practice, no source)."""
    if measure.whole is not None:
        return {}
    return {"at": _USUALLY_AT.get(measure.name, _ELSE_AT[view])}


def _own(plan: Plan, written: Data) -> Iterator[Asked]:
    rows = written if isinstance(written, list) else []
    for number, (target, row) in enumerate(zip(plan.targets, rows, strict=True), start=1):
        keys = row if isinstance(row, dict) else {}
        yield Asked(target, {k: v for k, v in keys.items() if k in _WHEN_KEYS}, plan.view, number)


def _usual(measure: Measure, view: View) -> Asked:
    keys = usual_keys(measure, view)
    bound = _ANY_BOUND[measure.unit]
    target = Target.model_validate({"measure": measure.name, **keys, "at_least": bound})
    return Asked(target, keys, view)


def _known(name: str, view: View) -> str:
    plain = " ".join(name.lower().split())
    shown = [m.name for m in measures() if view in m.views]
    if plain not in shown:
        raise BaycueError(
            f'"{name}" is no measure seen {view.value}; allowed: {", ".join(shown)}'
            f"{guess(plain, shown)}"
        )
    return plain
