"""What one key of a target asks of another; each rule raises ValueError with plain words."""

from collections.abc import Sequence

from baycue.measures.measure import Measure, Zero
from baycue.measures.measurement import Unit
from baycue.plan.units import Quantity, signs
from baycue.plan.words import check_order
from baycue.swing.swing import CheckpointName

_WIDEST = {
    Unit.METRE: (3.0, "3 m"),
    Unit.DEGREE: (720.0, "720 deg"),
    Unit.RATIO: (100.0, "100"),
    Unit.SECOND: (10.0, "10 s"),
}
_EXAMPLE = {Unit.METRE: "5 cm", Unit.DEGREE: "30 deg", Unit.SECOND: "50 ms"}
_WAYS = (
    'write "at: P6", or "from: top" and "to: P6" for the change, or '
    '"largest_between: [top, impact]", "least_between" or "furthest_between" for the most '
    "extreme value"
)


def check_moment_key(measure: Measure, earlier: Sequence[str]) -> None:
    """A key that says when goes with a measure that has a moment, and with no other such key."""
    if measure.whole is not None:
        raise ValueError(
            f'does not belong here; "{measure.name}" is taken over the whole swing and names '
            "no checkpoint"
        )
    if earlier:
        raise ValueError(f'does not belong here; "{earlier[0]}" is given already; keep one')


def check_counted_from_address(measure: Measure, at: CheckpointName) -> None:
    """What is counted from address is nothing at address."""
    if measure.zero is Zero.ADDRESS and at is CheckpointName.ADDRESS:
        raise ValueError(
            f'"{measure.name}" is counted from address, where it is always 0; '
            "name a later checkpoint"
        )


def check_pair(start: CheckpointName | None, end: CheckpointName | None) -> None:
    """``from`` and ``to`` come together, the earlier checkpoint first."""
    if start and not end:
        raise ValueError('missing; "from" needs "to", the checkpoint that the change runs to')
    if end and not start:
        raise ValueError('needs "from" too, the checkpoint that the change runs from')
    if start and end:
        check_order(start, end)


def check_moment_given(measure: Measure, given: bool) -> None:
    """A measure with a moment is told which."""
    if measure.whole is None and not given:
        raise ValueError(f'says not when "{measure.name}" is taken; {_WAYS}')


def check_bound(measure: Measure, quantity: Quantity) -> None:
    """A bound has a unit of the kind its measure is held in, and a credible size."""
    if quantity.written.held is not measure.unit:
        raise ValueError(f'"{_number(quantity)}" {_unit_wanted(measure, quantity)}')
    limit, said = _WIDEST[measure.unit]
    if abs(quantity.value) > limit:
        raise ValueError(f"is out of range; allowed: -{said} to {said}")


def check_tolerance(measure: Measure, quantity: Quantity) -> None:
    """A tolerance is a size in the measure's unit."""
    check_bound(measure, quantity)
    if quantity.value < 0:
        raise ValueError(f'"{_number(quantity)}" is negative; a tolerance is 0 or more')


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
    example = _EXAMPLE[measure.unit]
    fault = "has no unit" if quantity.written.held is Unit.RATIO else "has the wrong unit"
    return f'{fault} for "{measure.name}"; allowed: {signs(measure.unit)}, such as {example}'


def _number(quantity: Quantity) -> str:
    number = quantity.value / float(quantity.written.size)
    return f"{number:g} {quantity.written.sign}".strip()
