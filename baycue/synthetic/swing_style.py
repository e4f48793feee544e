"""What a coach would say of a swing: the knobs of the synthetic golfer."""

from dataclasses import dataclass

from baycue.synthetic.club_physics import CLUBS, Club, Release
from baycue.synthetic.odd_release import odd_release
from baycue.synthetic.oddity import NO_ODDITY, Oddity

RELEASE_ARM_DEG = {"early": -124.0, "normal": -100.0, "late": -82.0}


@dataclass(frozen=True, slots=True)
class SwingStyle:
    """One invented golfer's swing.

    ``knee_past_ankle_at_p6_m``: lead knee ahead of lead ankle along the target line when the
    shaft is parallel coming down, -0.08 to 0.10.  ``head_rise_at_impact_m``: head centre at
    impact against address.  ``release``: early, normal or late.  ``sway_m``: hips away from
    the target at the top.  ``hands_out_m``: hands pushed out (+) or pulled in going back.
    ``pelvis_drop_m``: hips lower at arm-parallel coming down than at address.
    Times in seconds; tempo is ``backswing_s`` over ``downswing_s``.
    ``oddity``: how it departs from the two-link model; a pause at the top comes on top of
    the times.
    """

    club: str = "iron"
    knee_past_ankle_at_p6_m: float = 0.05
    head_rise_at_impact_m: float = 0.0
    release: str = "normal"
    sway_m: float = 0.02
    hands_out_m: float = 0.0
    pelvis_drop_m: float = 0.02
    still_s: float = 0.9
    backswing_s: float = 0.80
    downswing_s: float = 0.26
    finish_s: float = 0.65
    hold_s: float = 0.9
    waggles: int = 0
    oddity: Oddity = NO_ODDITY

    def __post_init__(self) -> None:
        if self.club not in CLUBS:
            raise ValueError(f"no club {self.club!r}; there are {', '.join(CLUBS)}")
        if self.release not in RELEASE_ARM_DEG:
            raise ValueError(f"no release {self.release!r}; {', '.join(RELEASE_ARM_DEG)}")
        if not -0.08 <= self.knee_past_ankle_at_p6_m <= 0.10:
            raise ValueError(
                f"knee_past_ankle_at_p6_m is {self.knee_past_ankle_at_p6_m}; -0.08 to 0.10"
            )

    @property
    def club_held(self) -> Club:
        """The club of that name."""
        return CLUBS[self.club]

    @property
    def release_angles(self) -> Release:
        """The downswing's angles for this release."""
        plain = Release(
            release_arm_deg=RELEASE_ARM_DEG[self.release],
            impact_shaft_deg=self.club_held.shaft_at_impact_deg,
        )
        return odd_release(self.oddity, plain)
