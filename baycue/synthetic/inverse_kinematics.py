"""Two-bone limbs: where the middle joint goes when both ends are given."""

from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.rotations import cross, unit

FloatArray = NDArray[np.float64]

X_AXIS = np.array([1.0, 0.0, 0.0])


@dataclass(frozen=True, slots=True, eq=False)
class Limb:
    """A solved limb: the middle joint, the end reached, and the hinge axis of the middle.

    ``hinge`` is a unit vector along (upper x lower), well defined even when straight.
    """

    middle_m: FloatArray
    end_m: FloatArray
    hinge: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class MiddleCircle:
    """The circle the middle joint may lie on: centre, radius and the axis root to end."""

    centre_m: FloatArray
    radius_m: float
    axis: FloatArray
    end_m: FloatArray


def middle_circle(
    root_m: FloatArray, end_m: FloatArray, upper_m: float, lower_m: float
) -> MiddleCircle:
    """The circle for two lengths; an end out of reach is drawn in along its own line."""
    offset = end_m - root_m
    distance = float(np.sqrt(offset @ offset))
    reach = min(distance, 0.9999 * (upper_m + lower_m))
    axis = offset / distance
    along = (reach**2 + upper_m**2 - lower_m**2) / (2 * reach)
    radius = sqrt(max(upper_m**2 - along**2, 0.0))
    return MiddleCircle(root_m + along * axis, radius, axis, root_m + reach * axis)


def toward(circle: MiddleCircle, pole: FloatArray) -> Limb:
    """The limb whose middle joint lies as far as it can toward the ``pole`` direction."""
    out = unit(pole - circle.axis * float(circle.axis @ pole))
    return Limb(circle.centre_m + circle.radius_m * out, circle.end_m, -cross(circle.axis, out))


def soft_limit(value: float, start: float = 0.9, limit: float = 0.99) -> float:
    """Unchanged up to ``start`` in size, then bent over smoothly to stay under ``limit``."""
    size, room = abs(value), limit - start
    if size <= start:
        return value
    bent = start + room * float(np.tanh((size - start) / room))
    return bent if value > 0 else -bent


def forward_at_x(circle: MiddleCircle, x_m: float) -> Limb:
    """The limb whose middle joint is at ``x_m`` on the forward (+z) half of its circle.

    Out of reach, it goes as near as ``soft_limit`` lets it.
    """
    sideways = unit(X_AXIS - circle.axis * circle.axis[0])
    forward = cross(sideways, circle.axis)
    forward = forward if forward[2] >= 0 else -forward
    share = soft_limit(swing_share(circle, x_m))
    return toward(circle, share * sideways + sqrt(1 - share**2) * forward)


def swing_share(circle: MiddleCircle, x_m: float) -> float:
    """How much of its sideways range the middle joint needs to be at ``x_m`` (-1 to 1 in reach)."""
    sideways = unit(X_AXIS - circle.axis * circle.axis[0])
    return (x_m - float(circle.centre_m[0])) / (max(circle.radius_m, 1e-9) * float(sideways[0]))
