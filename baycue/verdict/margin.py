"""How far a value is from its bound, and on which side."""

from dataclasses import dataclass

from baycue.plan.target import Bound
from baycue.plan.units import Quantity


@dataclass(frozen=True, slots=True)
class Margin:
    """Distance to the nearest bound, in the held unit; positive on the passing side.

    ``is_low`` tells whether that bound is the low one.
    """

    size: float
    threshold: Quantity
    is_low: bool


def margin_to(bound: Bound, value: float) -> Margin:
    """The margin of a value to a bound; of two bounds, the one it is nearest to failing."""
    sides = []
    if bound.low:
        sides.append(Margin(value - bound.low.value, bound.low, True))
    if bound.high:
        sides.append(Margin(bound.high.value - value, bound.high, False))
    if not sides:
        raise ValueError("a target has no bound")
    return min(sides, key=lambda side: side.size)
