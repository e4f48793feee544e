"""What one key of a target asks of another; each rule raises ValueError with plain words."""

from baycue.measures.measure import Measure, Moment
from baycue.measures.measurement import Unit
from baycue.plan.units import Quantity, signs
from baycue.swing.swing import CheckpointName

_ORDER = list(CheckpointName)
_WIDEST = {
    Unit.METRE: (3.0, "3 m"),
    Unit.DEGREE: (720.0, "720 deg"),
    Unit.RATIO: (100.0, "100"),
}
_HOW = {
    Moment.AT: 'is taken at one checkpoint: write "at: P6"',
    Moment.CHANGE: 'is taken between two checkpoints: write "from: address" and "to: impact"',
    Moment.WHOLE: "is taken over the whole swing and names no checkpoint",
}
_MOMENT_OF_KEY = {"at": Moment.AT, "from": Moment.CHANGE, "to": Moment.CHANGE}


def check_moment(measure: Measure, key: str, given: bool) -> None:
    """``at`` goes with a measure taken at a checkpoint, ``from`` and ``to`` with a change."""
    wanted = measure.moment is _MOMENT_OF_KEY[key]
    if wanted and not given:
        raise ValueError(f'missing; "{measure.name}" {_HOW[measure.moment]}')
    if given and not wanted:
        raise ValueError(f'does not belong here; "{measure.name}" {_HOW[measure.moment]}')


def check_order(start: CheckpointName | None, end: CheckpointName | None) -> None:
    """A change runs from an earlier checkpoint to a later one."""
    if start and end and _ORDER.index(end) <= _ORDER.index(start):
        raise ValueError(
            f'"{end.value}" does not come after "{start.value}"; '
            f"the order is {', '.join(name.value for name in _ORDER)}"
        )


def check_bound(measure: Measure, quantity: Quantity) -> None:
    """A bound has a unit of the kind its measure is held in, and a credible size."""
    if quantity.written.held is not measure.unit:
        raise ValueError(f'"{_number(quantity)}" {_unit_wanted(measure, quantity)}')
    limit, said = _WIDEST[measure.unit]
    if abs(quantity.value) > limit:
        raise ValueError(f"is out of range; allowed: -{said} to {said}")


def check_one_bound(bounds: list[str]) -> None:
    """Exactly one of the three kinds of bound is given."""
    if not bounds:
        raise ValueError('missing a bound; write one of "at_least", "at_most", "between"')
    if len(bounds) > 1:
        raise ValueError(
            f'{" and ".join(bounds)} are given together; keep one ("between" takes two values)'
        )


def _unit_wanted(measure: Measure, quantity: Quantity) -> str:
    if measure.unit is Unit.RATIO:
        return f'has a unit, but "{measure.name}" is a bare number, such as 3.0'
    example = {"m": "5 cm", "deg": "30 deg"}[measure.unit.value]
    fault = "has no unit" if quantity.written.held is Unit.RATIO else "has the wrong unit"
    return f'{fault} for "{measure.name}"; allowed: {signs(measure.unit)}, such as {example}'


def _number(quantity: Quantity) -> str:
    number = quantity.value / float(quantity.written.size)
    return f"{number:g} {quantity.written.sign}".strip()
