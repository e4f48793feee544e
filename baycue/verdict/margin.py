"""How far a value is from its bound, and on which side."""

from dataclasses import dataclass

from baycue.plan.target import Bound
from baycue.plan.units import Quantity


@dataclass(frozen=True, slots=True)
class Margin:
    """Distance to the nearest bound, in the held unit; positive on the passing side.

    ``is_low`` tells whether that bound is the low one.  ``tolerated``: how much may be missing.
    """

    size: float
    threshold: Quantity
    is_low: bool
    tolerated: float = 0.0

    @property
    def to_spare(self) -> float:
        """Distance to where passing ends, which the tolerance moves out."""
        return self.size + self.tolerated

    @property
    def edge(self) -> float:
        """Where passing ends, in the held unit."""
        return self.threshold.value + (-self.tolerated if self.is_low else self.tolerated)


def margin_to(bound: Bound, value: float) -> Margin:
    """The margin of a value to a bound; of two bounds, the one it is nearest to failing."""
    sides, tolerated = [], bound.tolerance.value if bound.tolerance else 0.0
    if bound.low:
        sides.append(Margin(value - bound.low.value, bound.low, True, tolerated))
    if bound.high:
        sides.append(Margin(bound.high.value - value, bound.high, False, tolerated))
    if not sides:
        raise ValueError("a target has no bound")
    return min(sides, key=lambda side: side.size)
