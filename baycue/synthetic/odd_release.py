"""How the wrist opens in a swing of another make."""

from dataclasses import replace

from baycue.synthetic.club_physics import Release, WristDrive
from baycue.synthetic.oddity import Oddity, OddKind

DRIVEN_FADES_DEG, DRIVEN_GONE_DEG = -95.0, (-45.0, -60.0)
DRIVEN_LEFT = 0.35
LATE_FROM_DEG, LATE_FULL_DEG = (-75.0, -58.0), (-48.0, -32.0)
CAST_ARM_DEG = (-128.0, -135.0)
CAST_IMPACT_ARM_DEG, CAST_SHAFT_LEANS_BACK_DEG = -1.0, 4.0
"""Arm angles, degrees; a pair is for the least and for the most of the oddity."""
MOST_NM = 150.0


def odd_release(oddity: Oddity, plain: Release) -> Release:
    """The release of a swing with this oddity: ``plain`` if the wrist has none."""
    size = oddity.size
    match oddity.kind:
        case OddKind.DRIVEN_WRIST:
            gone_deg = _between(DRIVEN_GONE_DEG, size)
            drive = WristDrive(
                fades_deg=(DRIVEN_FADES_DEG, gone_deg), left=DRIVEN_LEFT, most_nm=MOST_NM
            )
            return replace(plain, wrist=drive)
        case OddKind.LATE_WRIST:
            rises_deg = (_between(LATE_FROM_DEG, size), _between(LATE_FULL_DEG, size))
            return replace(plain, wrist=WristDrive(rises_deg=rises_deg, most_nm=MOST_NM))
        case OddKind.CAST:
            return replace(
                plain,
                release_arm_deg=_between(CAST_ARM_DEG, size),
                impact_arm_deg=CAST_IMPACT_ARM_DEG,
                impact_shaft_deg=plain.impact_shaft_deg + CAST_SHAFT_LEANS_BACK_DEG * size,
            )
        case _:
            return plain


def _between(least_most: tuple[float, float], size: float) -> float:
    least, most = least_most
    return least + (most - least) * size
