"""A swing's own clock: real seconds to those of the evenly paced swing it is made from."""

from dataclasses import dataclass

import numpy as np
from scipy.interpolate import CubicHermiteSpline
from scipy.optimize import brentq

from baycue.synthetic.oddity import Oddity, OddKind
from baycue.synthetic.phases import Phases

PAUSE_S = 0.30
"""The longest pause at the top."""
CREEP = 0.12
"""The pace in the middle of the longest pause."""
BEFORE_S, AFTER_S = 0.10, 0.08
"""A pause slows the swing down this long before the top and lets it go this long after."""
RUSH_SHARES = np.array([0.30, 0.65])
RUSH_AHEAD, RUSH_PACE = np.array([0.16, 0.04]), np.array([-0.20, -0.30])
"""At those shares of a rushed downswing: how far it is ahead, and its pace less the even one."""


@dataclass(frozen=True, slots=True)
class Knot:
    """At ``real_s`` the even swing is at ``even_s``, running at ``pace`` of its own speed."""

    real_s: float
    even_s: float
    pace: float = 1.0


class Pace:
    """Once differentiable and rising; even speed before the first knot and after the last.

    The first knot must be where both clocks agree, and the last must have pace 1.  Without
    knots the clocks are one.  Raises ValueError if time would stand still or run back.
    """

    def __init__(self, knots: tuple[Knot, ...] = ()) -> None:
        self._knots = knots
        if not knots:
            return
        self._inner = CubicHermiteSpline(
            [k.real_s for k in knots], [k.even_s for k in knots], [k.pace for k in knots]
        )
        times = np.linspace(knots[0].real_s, knots[-1].real_s, 400)
        if self._inner(times, 1).min() <= 0:
            raise ValueError("the swing's clock would run back")

    def even_s(self, real_s: float) -> float:
        """Where the even swing is at a real time."""
        if not self._knots or real_s <= self._knots[0].real_s:
            return real_s
        if real_s >= self._knots[-1].real_s:
            return real_s - self._longer_s
        return float(self._inner(real_s))

    def real_s(self, even_s: float) -> float:
        """When the even swing is there."""
        if not self._knots or even_s <= self._knots[0].even_s:
            return even_s
        if even_s >= self._knots[-1].even_s:
            return even_s + self._longer_s
        ends = self._knots[0].real_s, self._knots[-1].real_s
        return float(brentq(lambda t: float(self._inner(t)) - even_s, *ends, xtol=1e-12))

    def of(self, even: Phases) -> Phases:
        """The even swing's phases by the real clock."""
        return Phases(
            self.real_s(even.start_s),
            self.real_s(even.top_s),
            self.real_s(even.p6_s),
            self.real_s(even.impact_s),
            self.real_s(even.p8_s),
            self.real_s(even.finish_s),
        )

    @property
    def _longer_s(self) -> float:
        return self._knots[-1].real_s - self._knots[-1].even_s


def pace_of(oddity: Oddity, even: Phases) -> Pace:
    """The clock of a swing with this oddity."""
    if oddity.kind is not OddKind.UNEVEN_TEMPO:
        return Pace()
    return _paused(even, oddity.size) if oddity.amount > 0 else _rushed(even, oddity.size)


def _paused(even: Phases, size: float) -> Pace:
    top, pause_s = even.top_s, PAUSE_S * size
    return Pace(
        (
            Knot(top - BEFORE_S, top - BEFORE_S),
            Knot(top + pause_s / 2, top, 1 - (1 - CREEP) * size),
            Knot(top + pause_s + AFTER_S, top + AFTER_S),
        )
    )


def _rushed(even: Phases, size: float) -> Pace:
    ahead, paces = RUSH_SHARES + RUSH_AHEAD * size, 1 + RUSH_PACE * size
    between = [
        Knot(even.down(float(real)), even.down(float(there)), float(pace))
        for real, there, pace in zip(RUSH_SHARES, ahead, paces, strict=True)
    ]
    start_s, end_s = even.top_s - BEFORE_S, even.impact_s
    return Pace((Knot(start_s, start_s), *between, Knot(end_s, end_s)))
