"""How badly a smooth curve fits the angles that it was drawn through."""

from dataclasses import dataclass

import numpy as np

from baycue.swing.curve import Curve, FloatArray

_ABOUT_S = 0.07


@dataclass(frozen=True, slots=True)
class AnglesSeen:
    """Angles as read from pictures, deg, and when, s: (N,) each, unwrapped as their curve is."""

    times_s: FloatArray
    angles_deg: FloatArray


def misfit_deg(curve: Curve, seen: AnglesSeen, time_s: float) -> float:
    """How far off the curve what was read within 70 ms of a moment lies, RMS; 0 if nothing was.

    Where something else was taken for the club or an arm now and then, pictures contradict each
    other, and the curve between them is off by as much.
    """
    near = np.abs(seen.times_s - time_s) < _ABOUT_S
    if not near.any():
        return 0.0
    fitted = np.interp(seen.times_s[near], curve.times_s, curve.values)
    return float(np.sqrt(np.mean(np.square(seen.angles_deg[near] - fitted))))
