"""The truth of a synthetic swing, found on the continuous motion, not on frames.

Everything is in target-line axes (metres, x to the target, y up, z away from the golfer) and
in lead and trail, so that a left-hander's truth reads like a right-hander's.

Checkpoints: address and takeaway are the same moment, the last one at which club and hands
are still; P2, P6 and P8 are where butt and head of the club are equally high; P3 and P5
where lead shoulder and lead wrist joint are; top is where the shaft, seen face-on, turns
round; impact is where the face reaches the ball; finish is when all has come to rest.
"""

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq, minimize_scalar

from baycue.swing.swing import CheckpointName
from baycue.synthetic.scene import ClubPose
from baycue.synthetic.skeleton import Skeleton, head_centre
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.true_measures import Stand, face_on_deg, lead_arm_deg
from baycue.synthetic.true_tracks import TrueTrack, lowest_before_s, true_tracks

FloatArray = NDArray[np.float64]

_TOLERANCE_S = 1e-7

TRUE_WHOLES = ("tempo", "down before up")
"""The measures of a swing as a whole."""


@dataclass(frozen=True, slots=True)
class TrueSwing:
    """One swing: when its checkpoints are (s from the clip's start), and what is true there.

    ``knee_past_ankle_m``: lead knee joint ahead of lead ankle joint along the target line.
    ``head_rise_m``: head centre (mid-head at ear level) above its height at address.
    ``hands_out_m``: lead wrist further from the golfer than at address.
    ``shaft_deg`` and ``lead_arm_deg``: seen face-on, from straight down, + to the target.
    ``tempo``: takeaway to top over top to impact.
    ``tracks``: every measure that has a value at each moment, by the catalogue's name; ``wholes``:
    those of the swing as a whole.  Both are empty in older truth files.
    """

    number: int
    checkpoints_s: dict[str, float]
    knee_past_ankle_m: dict[str, float]
    head_rise_m: dict[str, float]
    hands_out_m: dict[str, float]
    hips_x_m: dict[str, float]
    shaft_deg: dict[str, float]
    lead_arm_deg: dict[str, float]
    tempo: float
    club_head_speed_m_s: float
    tracks: dict[str, TrueTrack] = field(default_factory=dict)
    wholes: dict[str, float] = field(default_factory=dict)


def true_checkpoints(swing: SwingMotion) -> dict[CheckpointName, float]:
    """Seconds on the swing's own clock, exact to 0.1 ms or better."""
    phases = swing.phases
    start, top, impact, finish = phases.start_s, phases.top_s, phases.impact_s, phases.finish_s
    top = _turning_point(swing, top)
    at_ball = _root(lambda t: _head_x(swing, t) - swing.contact_m[0], impact - 0.03, impact + 0.02)
    return {
        CheckpointName.ADDRESS: start,
        CheckpointName.TAKEAWAY: start,
        CheckpointName.P2: _root(lambda t: _head_above_butt(swing, t), start, top),
        CheckpointName.P3: _root(lambda t: _wrist_above_shoulder(swing, t), start, top),
        CheckpointName.TOP: top,
        CheckpointName.P5: _root(lambda t: _wrist_above_shoulder(swing, t), top, at_ball),
        CheckpointName.P6: _root(lambda t: _head_above_butt(swing, t), top, at_ball),
        CheckpointName.IMPACT: at_ball,
        CheckpointName.P8: _root(lambda t: _head_above_butt(swing, t), at_ball, phases.p8_s + 0.03),
        CheckpointName.FINISH: finish,
    }


def true_swing(swing: SwingMotion, number: int = 1, clock_zero_s: float = 0.0) -> TrueSwing:
    """All that is true of one swing; ``clock_zero_s`` is where its clock starts in the clip."""
    times = true_checkpoints(swing)
    golfers = {name: swing.golfer_at(t) for name, t in times.items()}
    head_m = head_centre(golfers[CheckpointName.ADDRESS][0])
    wrist_m = golfers[CheckpointName.ADDRESS][0].head_of("hand_l")

    def each(value: Callable[[Skeleton, ClubPose], float]) -> dict[str, float]:
        return {name.value: value(*golfer) for name, golfer in golfers.items()}

    def stand_at(time_s: float) -> Stand:
        return Stand(*swing.golfer_at(time_s))

    top, impact = times[CheckpointName.TOP], times[CheckpointName.IMPACT]
    tempo = (top - times[CheckpointName.TAKEAWAY]) / (impact - top)
    return TrueSwing(
        number,
        {name.value: t + clock_zero_s for name, t in times.items()},
        knee_past_ankle_m=each(lambda s, _: knee_past_ankle_m(s)),
        head_rise_m=each(lambda s, _: float(head_centre(s)[1] - head_m[1])),
        hands_out_m=each(lambda s, _: float(s.head_of("hand_l")[2] - wrist_m[2])),
        hips_x_m=each(lambda s, _: _hips_x(s)),
        shaft_deg=each(lambda _, c: face_on_deg(c.head_m - c.butt_m)),
        lead_arm_deg=each(lambda s, c: lead_arm_deg(Stand(s, c))),
        tempo=tempo,
        club_head_speed_m_s=_head_speed(swing, impact),
        tracks=true_tracks(stand_at, times),
        wholes=dict(zip(TRUE_WHOLES, (tempo, lowest_before_s(stand_at, top, impact)), strict=True)),
    )


def knee_past_ankle_m(skeleton: Skeleton) -> float:
    """Lead knee joint ahead of lead ankle joint, metres."""
    return float(skeleton.head_of("calf_l")[0] - skeleton.head_of("foot_l")[0])


def _hips_x(skeleton: Skeleton) -> float:
    return float(skeleton.head_of("thigh_l")[0] + skeleton.head_of("thigh_r")[0]) / 2


def _head_x(swing: SwingMotion, time_s: float) -> float:
    return float(swing.golfer_at(time_s)[1].head_m[0])


def _head_above_butt(swing: SwingMotion, time_s: float) -> float:
    club = swing.golfer_at(time_s)[1]
    return float(club.head_m[1] - club.butt_m[1])


def _wrist_above_shoulder(swing: SwingMotion, time_s: float) -> float:
    skeleton, _ = swing.golfer_at(time_s)
    return float(skeleton.head_of("hand_l")[1] - skeleton.head_of("upperarm_l")[1])


def _head_speed(swing: SwingMotion, time_s: float, step_s: float = 1e-5) -> float:
    ahead, behind = (swing.golfer_at(time_s + s)[1].head_m for s in (step_s, -step_s))
    return float(np.linalg.norm(ahead - behind)) / (2 * step_s)


def _turning_point(swing: SwingMotion, near_s: float) -> float:
    """Where the shaft's face-on angle is furthest back, within 0.1 s."""

    def unwrapped(time_s: float) -> float:
        club = swing.golfer_at(time_s)[1]
        return face_on_deg(club.head_m - club.butt_m) % 360.0

    found = minimize_scalar(
        unwrapped,
        bounds=(near_s - 0.1, near_s + 0.1),
        method="bounded",
        options={"xatol": _TOLERANCE_S},
    )
    return float(found.x)


def _root(of: Callable[[float], float], low_s: float, high_s: float) -> float:
    return float(brentq(of, low_s, high_s, xtol=_TOLERANCE_S))
