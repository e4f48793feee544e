"""Small helpers for rotations, as (3, 3) matrices acting on column vectors."""

from math import acos, atan2, cos, radians, sin

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]


def unit(vector: FloatArray) -> FloatArray:
    """The (3,) vector at length one."""
    return vector / float(np.sqrt(vector @ vector))


def cross(a: FloatArray, b: FloatArray) -> FloatArray:
    """Cross product of two (3,) vectors; far quicker than NumPy's general one."""
    return np.array(
        [
            a[1] * b[2] - a[2] * b[1],
            a[2] * b[0] - a[0] * b[2],
            a[0] * b[1] - a[1] * b[0],
        ]
    )


def about_x(angle_deg: float) -> FloatArray:
    """Turn about x: positive bends a body facing +z forward."""
    c, s = cos(radians(angle_deg)), sin(radians(angle_deg))
    return np.array([[1.0, 0.0, 0.0], [0.0, c, -s], [0.0, s, c]])


def about_y(angle_deg: float) -> FloatArray:
    """Turn about y: positive turns a body facing +z toward +x."""
    c, s = cos(radians(angle_deg)), sin(radians(angle_deg))
    return np.array([[c, 0.0, s], [0.0, 1.0, 0.0], [-s, 0.0, c]])


def about_z(angle_deg: float) -> FloatArray:
    """Turn about z: positive leans an upright body toward -x."""
    c, s = cos(radians(angle_deg)), sin(radians(angle_deg))
    return np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])


def about_axis(axis: FloatArray, angle_rad: float) -> FloatArray:
    """Turn about a unit (3,) axis (Rodrigues' formula)."""
    x, y, z = axis
    skew = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    return np.asarray(np.eye(3) + sin(angle_rad) * skew + (1 - cos(angle_rad)) * (skew @ skew))


def frame(primary: FloatArray, secondary: FloatArray) -> FloatArray:
    """Orthonormal columns: ``primary``, ``secondary`` made square to it, their cross."""
    first = unit(primary)
    second = unit(secondary - first * float(first @ secondary))
    return np.column_stack([first, second, cross(first, second)])


def carry(
    rest_primary: FloatArray, rest_secondary: FloatArray, primary: FloatArray, secondary: FloatArray
) -> FloatArray:
    """The rotation that takes one pair of directions to another, the first exactly."""
    return np.asarray(frame(primary, secondary) @ frame(rest_primary, rest_secondary).T)


def axis_and_angle(rotation: FloatArray) -> tuple[FloatArray, float]:
    """Unit axis and angle (rad, 0 to pi) of a rotation; less than half a turn."""
    twice_sine = np.array(
        [
            rotation[2, 1] - rotation[1, 2],
            rotation[0, 2] - rotation[2, 0],
            rotation[1, 0] - rotation[0, 1],
        ]
    )
    size = float(np.sqrt(twice_sine @ twice_sine))
    angle = atan2(size, float(np.trace(rotation)) - 1.0)
    return (twice_sine / size if size > 1e-12 else np.array([1.0, 0.0, 0.0])), angle


def between(start: FloatArray, end: FloatArray, share: float) -> FloatArray:
    """The rotation ``share`` of the way from ``start`` to ``end``, the short way round."""
    axis, angle = axis_and_angle(end @ start.T)
    return np.asarray(about_axis(axis, share * angle) @ start)


def twist_about(axis: FloatArray, rotation: FloatArray) -> float:
    """How far (rad, -pi to pi) a rotation turns about ``axis``, swing taken out."""
    turn_axis, angle = axis_and_angle(rotation)
    half = angle / 2
    return 2 * atan2(sin(half) * float(turn_axis @ axis), cos(half))


def angle_deg(a: FloatArray, b: FloatArray) -> float:
    """Angle between two (3,) vectors, degrees."""
    return float(np.degrees(acos(max(-1.0, min(1.0, float(unit(a) @ unit(b)))))))
