"""Where hands and club leave the way of the two-link swing, and find it again by impact."""

from dataclasses import dataclass, replace

import numpy as np

from baycue.synthetic.arm_angles import ArmAngles
from baycue.synthetic.curves import Curve, resting_curve
from baycue.synthetic.oddity import Oddity, OddKind
from baycue.synthetic.phases import Phases


@dataclass(frozen=True, slots=True)
class Aside:
    """What is added to ``ArmAngles`` at a moment."""

    arm_deg: float = 0.0
    arm_plane_deg: float = 0.0
    shaft_plane_deg: float = 0.0
    shaft_yaw_deg: float = 0.0
    stretch: float = 0.0

    def vector(self) -> tuple[float, ...]:
        """The five numbers, in order."""
        return (
            self.arm_deg,
            self.arm_plane_deg,
            self.shaft_plane_deg,
            self.shaft_yaw_deg,
            self.stretch,
        )


# At 0.45 of the backswing, the top, 0.3 and 0.6 of the downswing, and P6.
_NOWHERE = Aside()
OFF_PLANE = (
    Aside(shaft_yaw_deg=4.0),
    Aside(shaft_plane_deg=6.0, shaft_yaw_deg=24.0),
    Aside(shaft_plane_deg=12.0, shaft_yaw_deg=22.0),
    Aside(shaft_plane_deg=14.0, shaft_yaw_deg=17.0),
    Aside(shaft_plane_deg=8.0, shaft_yaw_deg=11.0),
)
"""Over the top: laid off at the top, steep and outside the hands coming down.

The other way round: across the line at the top, flat and inside coming down.
"""
PULLED_IN = (
    _NOWHERE,
    _NOWHERE,
    Aside(arm_deg=-3.0, arm_plane_deg=2.0, stretch=-0.07),
    Aside(arm_deg=-6.0, arm_plane_deg=6.0, stretch=-0.17),
    Aside(arm_deg=-3.0, arm_plane_deg=3.0, stretch=-0.06),
)
"""The hands pulled in and thrown out again."""
THROWN_OUT = (
    Aside(stretch=-0.04),
    Aside(stretch=-0.20),
    Aside(arm_deg=5.0, arm_plane_deg=-6.0, stretch=-0.12),
    Aside(arm_deg=6.0, arm_plane_deg=-9.0),
    Aside(arm_deg=3.0, arm_plane_deg=-5.0),
)
"""The lead arm bent at the top, the hands thrown out from there."""


def detoured(angles: ArmAngles, detour: Curve | None, time_s: float) -> ArmAngles:
    """The angles with what the detour adds at a time."""
    if detour is None:
        return angles
    aside = Aside(*(float(v) for v in detour(time_s)))
    return replace(
        angles,
        arm_deg=angles.arm_deg + aside.arm_deg,
        arm_plane_deg=angles.arm_plane_deg + aside.arm_plane_deg,
        shaft_plane_deg=angles.shaft_plane_deg + aside.shaft_plane_deg,
        shaft_yaw_deg=angles.shaft_yaw_deg + aside.shaft_yaw_deg,
        stretch=angles.stretch + aside.stretch,
    )


def detour_curve(oddity: Oddity, phases: Phases) -> Curve | None:
    """What an oddity adds by time: nothing up to the start and from impact on."""
    asides = _asides(oddity)
    if asides is None:
        return None
    share = oddity.amount if oddity.kind is OddKind.OFF_PLANE else oddity.size
    times = [phases.back(0.45), phases.top_s, phases.down(0.3), phases.down(0.6), phases.p6_s]
    rows = share * np.array([aside.vector() for aside in asides])
    nowhere = np.zeros((1, rows.shape[1]))
    return resting_curve(
        [phases.start_s, *times, phases.impact_s], np.concatenate([nowhere, rows, nowhere])
    )


def _asides(oddity: Oddity) -> tuple[Aside, ...] | None:
    match oddity.kind:
        case OddKind.OFF_PLANE:
            return OFF_PLANE
        case OddKind.ODD_HAND_PATH:
            return PULLED_IN if oddity.amount > 0 else THROWN_OUT
        case _:
            return None
