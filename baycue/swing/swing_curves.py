"""The curves of one swing from which its checkpoints are read."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.club.reading import Evidence, ShaftReading
from baycue.pose.pose import Pose
from baycue.pose.sides import Stance
from baycue.swing.arms import direction_deg, turning_arm_deg
from baycue.swing.curve import Curve, readings
from baycue.swing.events import StrikeSeen
from baycue.swing.from_behind import hand_height, takeaway_from_behind_s
from baycue.swing.hands import bodies_px, grips_px
from baycue.swing.misfit import AnglesSeen
from baycue.swing.shaft_curve import on_grid, shaft_curve
from baycue.swing.shaft_frames import ShaftFrames, shaft_frames
from baycue.swing.takeaway import hands_top_s, takeaway_s

FloatArray = NDArray[np.float64]

_ARM_SIGMA_DEG, _ARM_JERK_DENSITY = 4.0, 3e7
_CLUB_REACH_BODIES = 0.62


@dataclass(frozen=True, slots=True)
class Instant:
    """A moment and its one-sigma, ns."""

    time_ns: int
    sigma_ns: int


@dataclass(frozen=True, slots=True)
class SwingCurves:
    """Curves over time, s, and the rough times found while the swing was watched.

    ``shaft``: shaft angle, deg, or None when the club was hidden.  ``arm``: lead-arm angle
    about where it turns, or None down the line, where neither shows as an angle; ``hands``: there
    alone, the wrists' height against the shoulders.  ``ball_gone``: when the ball was seen to
    leave, if that was looked for.  ``level_sigma_deg``: how sure "level" is.
    ``frames``: which pictures showed the shaft, and how smeared.  ``in_company``: whether
    somebody was close behind.
    ``shaft_seen``, ``arm_seen``: what the two curves were drawn through, of the shaft only what
    pictures showed.
    ``ball_deg``: on the shaft curve's times, the direction from the hands to the ball.
    """

    strike: StrikeSeen
    shaft: Curve | None
    arm: Curve | None
    hands: Curve | None
    ball_deg: FloatArray
    ball_gone: Instant | None
    takeaway_s: float
    top_s: float
    hands_top_s: float
    return_s: float
    end_s: float
    level_sigma_deg: float
    frames: ShaftFrames
    shaft_seen: AnglesSeen
    arm_seen: AnglesSeen
    in_company: bool = False


def swing_curves(
    strike: StrikeSeen,
    poses: tuple[Pose, ...],
    shaft: tuple[ShaftReading, ...],
    stance: Stance,
    face_on: bool = True,
    ball_gone: Instant | None = None,
    level_sigma_deg: float = 0.5,
    in_company: bool = False,
) -> SwingCurves:
    """Fit the curves of one swing to its poses and shaft readings."""
    shaft_fit = shaft_curve(shaft)
    arm_seen = AnglesSeen(_times_s(poses), turning_arm_deg(poses, stance))
    hands = None if face_on else hand_height(strike, poses)
    from_behind_s = takeaway_from_behind_s(strike, hands) if hands else None
    return SwingCurves(
        strike=strike,
        shaft=shaft_fit,
        arm=_arm_curve(arm_seen) if face_on else None,
        hands=hands,
        ball_deg=_ball_direction_deg(strike, poses, shaft_fit, stance),
        ball_gone=ball_gone,
        takeaway_s=takeaway_s(strike, poses) if from_behind_s is None else from_behind_s,
        top_s=strike.top_ns * 1e-9,
        hands_top_s=hands_top_s(strike, poses),
        return_s=strike.return_ns * 1e-9,
        end_s=poses[-1].stamp_ns * 1e-9,
        level_sigma_deg=level_sigma_deg,
        frames=shaft_frames(shaft),
        shaft_seen=_shaft_seen(shaft),
        arm_seen=arm_seen,
        in_company=in_company,
    )


def _times_s(poses: tuple[Pose, ...]) -> FloatArray:
    return np.array([p.stamp_ns for p in poses]) * 1e-9


def _arm_curve(seen: AnglesSeen) -> Curve:
    spread_deg = np.full(len(seen.times_s), _ARM_SIGMA_DEG)
    return on_grid(readings(seen.times_s, seen.angles_deg, spread_deg), _ARM_JERK_DENSITY)


def _shaft_seen(shaft: tuple[ShaftReading, ...]) -> AnglesSeen:
    shown = [r for r in shaft if r.evidence is Evidence.PICTURE]
    times_s = np.array([r.stamp_ns for r in shown]) * 1e-9
    return AnglesSeen(times_s, np.array([r.angle_deg for r in shown]))


def _ball_direction_deg(
    strike: StrikeSeen, poses: tuple[Pose, ...], shaft: Curve | None, stance: Stance
) -> FloatArray:
    """Where the ball lies as seen from the hands, deg, at each of the shaft curve's times.

    The club head stands at the ball at address, a club's reach along the shaft from the
    hands; a tenth more or less of reach moves the direction by under a degree.
    """
    if shaft is None:
        return np.array([])
    still = [p for p in poses if p.stamp_ns <= strike.takeaway_ns] or [poses[0]]
    hands = grips_px(still).mean(axis=0)
    angle = np.radians(shaft.value_at(strike.takeaway_ns * 1e-9))
    reach_px = _CLUB_REACH_BODIES * float(bodies_px(still[-1:])[0])
    along = np.array([np.sin(angle) * stance.toward_target, np.cos(angle)])
    ball_px = hands + reach_px * along
    seen = direction_deg(grips_px(poses), ball_px, stance)
    return np.interp(shaft.times_s, _times_s(poses), seen)
