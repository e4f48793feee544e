"""How a curve hangs between two pictures, and how far that is from usual.

Between pictures that are far apart a curve tells the club's acceleration less well than one knows
beforehand: at 30 frames a second what it says beyond the usual is mostly error.
"""

from dataclasses import dataclass

import numpy as np

from baycue.swing.curve import Curve
from baycue.swing.misfit import AnglesSeen

_ABOUT_S = 0.012
_APART_AT_MOST_S = 0.034


@dataclass(frozen=True, slots=True)
class UsualAcceleration:
    """How fast a club usually gains speed at a checkpoint, deg/s^2, and what to make of more.

    ``share``: so much of what a curve says beyond that is taken for error.
    """

    deg_s2: float
    share: float = 1.0

    def too_low_deg(self, curve: Curve, seen: AnglesSeen, time_s: float) -> float:
        """How much too low the curve is taken to be; below 0 where it is too high.

        Half of the acceleration, times the time since the picture before and the time to the one
        after, is what a parabola lies below the line between them.  0 with no picture after.
        """
        before, after = time_s - seen.times_s, seen.times_s - time_s
        if not ((before >= 0).any() and (after > 0).any()):
            return 0.0
        apart_s = before[before >= 0].min(), after[after > 0].min()
        square_s2 = float(np.prod(np.minimum(apart_s, _APART_AT_MOST_S)))
        return self.share * self.excess_deg_s2(curve, time_s) * square_s2 / 2

    def excess_deg_s2(self, curve: Curve, time_s: float) -> float:
        """By how much the curve's acceleration is beyond the usual."""
        return acceleration_deg_s2(curve, time_s) - self.deg_s2


def acceleration_deg_s2(curve: Curve, time_s: float) -> float:
    """The curve's acceleration, over 24 ms about a moment."""
    gained = curve.rate_at(time_s + _ABOUT_S) - curve.rate_at(time_s - _ABOUT_S)
    return gained / (2 * _ABOUT_S)
