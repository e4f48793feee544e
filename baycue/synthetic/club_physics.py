"""How the arm and the club come down: the two-link model fitted to a golfer's positions.

The textbook start (arm 166 degrees back, constant torque, free wrist) leaves the hands far
ahead of the ball.  A golfer's swing starts shorter and helps the wrist open, so here the
release and the opening torque are found that bring arm and shaft to the ball together.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import pi

import numpy as np
from scipy.optimize import brentq

from baycue.synthetic.curves import minimum_jerk
from baycue.synthetic.two_link import (
    Drive,
    Links,
    Start,
    TwoLinkSwing,
    constant_torque,
    swing_links,
    time_of_club,
)

SHOULDER_NM = 100.0
"""Only the shape of the motion matters: the swing is run at the tempo asked for."""
THROUGH_DEG = 92.0
"""The club angle at which the model hands over to the finish, just past shaft-parallel."""


@dataclass(frozen=True, slots=True)
class Club:
    """A club: overall length, half the head's depth, height of the struck ball.

    ``shaft_at_impact_deg``: negative leans the handle toward the target.
    ``stance_share``: distance between the ankles, of stature.

    The lengths lie within 0.457 to 1.219 m, the limits in the Equipment Rules.
    """

    name: str
    length_m: float
    half_head_m: float
    ball_y_m: float
    shaft_at_impact_deg: float
    stance_share: float


CLUBS = {
    club.name: club
    for club in (
        Club("wedge", 0.90, 0.012, 0.0215, -8.0, 0.225),
        Club("iron", 0.94, 0.012, 0.0215, -7.0, 0.245),
        Club("driver", 1.13, 0.050, 0.055, -2.0, 0.29),
    )
}


@dataclass(frozen=True, slots=True)
class WristDrive:
    """When the wrist is driven: between which arm angles (degrees) the torque rises and fades.

    None: it is there from the release, or to the end.  It fades to ``left`` of itself.
    ``most_nm``: the largest torque tried.
    """

    rises_deg: tuple[float, float] | None = None
    fades_deg: tuple[float, float] | None = None
    left: float = 0.0
    most_nm: float = 60.0

    def share(self, arm_rad: float) -> float:
        """The torque's share, 0 to 1, at an arm angle."""
        arm_deg, share = arm_rad * 180 / pi, 1.0
        if self.rises_deg is not None:
            share *= _eased(arm_deg, self.rises_deg)
        if self.fades_deg is not None:
            share *= 1.0 - (1.0 - self.left) * _eased(arm_deg, self.fades_deg)
        return share


def _eased(value: float, ends: tuple[float, float]) -> float:
    """0 before, 1 after, minimum jerk between."""
    return minimum_jerk((value - ends[0]) / (ends[1] - ends[0]))


@dataclass(frozen=True, slots=True)
class Release:
    """Where the downswing starts, lets go and arrives; degrees as in ``two_link``."""

    top_arm_deg: float = -138.0
    top_wrist_deg: float = -114.0
    release_arm_deg: float = -100.0
    impact_arm_deg: float = 2.0
    impact_shaft_deg: float = -7.0
    wrist: WristDrive = WristDrive()


@dataclass(frozen=True, slots=True)
class Downswing:
    """A solved downswing, run so that top to impact takes ``duration_s``."""

    swing: TwoLinkSwing
    impact_s: float
    duration_s: float

    @property
    def pace(self) -> float:
        """Model seconds to one second of this swing."""
        return self.impact_s / self.duration_s

    def angles_deg(self, since_top_s: float) -> tuple[float, float]:
        """Arm and shaft angle, degrees from straight down, at a time after the top."""
        state = self.swing.state_at(since_top_s * self.pace)
        return float(state[0]) * 180 / pi, float(state[1]) * 180 / pi

    def shaft_rate_deg_s(self, since_top_s: float) -> float:
        """How fast the shaft turns."""
        return float(np.degrees(self.swing.state_at(since_top_s * self.pace)[3])) * self.pace

    def time_of_shaft(self, shaft_deg: float) -> float:
        """When, after the top, the shaft passes an angle."""
        return time_of_club(self.swing, shaft_deg) / self.pace


def _arm_at_impact(release: Release, wrist_nm: float) -> tuple[TwoLinkSwing, float, float]:
    drive = Drive(
        constant_torque(SHOULDER_NM), release.release_arm_deg, wrist_nm, release.wrist.share
    )
    start = Start(release.top_arm_deg, release.top_wrist_deg)
    swing = swing_links(Links(), start, drive, THROUGH_DEG)
    impact_s = time_of_club(swing, release.impact_shaft_deg)
    return swing, impact_s, float(np.degrees(swing.state_at(impact_s)[0]))


@lru_cache(maxsize=32)
def downswing(release: Release, duration_s: float) -> Downswing:
    """Find the wrist torque that brings the arm to its impact angle, and run it.

    Raises ValueError if no torque between 0 and the drive's most does.
    """

    def miss(wrist_nm: float) -> float:
        return _arm_at_impact(release, wrist_nm)[2] - release.impact_arm_deg

    wrist_nm = float(brentq(miss, 0.0, release.wrist.most_nm, xtol=1e-6))
    swing, impact_s, _ = _arm_at_impact(release, wrist_nm)
    return Downswing(swing, impact_s, duration_s)
