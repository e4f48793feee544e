"""A slow rehearsal held at P6, rendered and looked at by the real pose model."""

from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from baycue.bench.idle_population import IdleClip
from baycue.bench.idle_render import idle_frames
from baycue.glimpse import Glimpse, glimpses
from baycue.plan.load import parse_plan
from baycue.plan.plan import Plan
from baycue.pose.landmarker import MediaPipePose
from baycue.pose.sides import Stance
from baycue.swing.arms import direction_deg
from baycue.synthetic.clip import Shot
from baycue.synthetic.drills import WithoutBall, held_from_s, slow_to_p6
from baycue.synthetic.recipes import FACE_ON, FIRST, Recipe
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.swing_style import SwingStyle

HOLD_S, FPS, SLOWER = 2.8, 12.0, 0.75
SIZE_PX = (640, 360)
_RIGHT = Stance(left_leads=True)

PLAN = """\
student: Heron
handedness: right
stature: 178 cm
view: face-on
targets:
  - {{measure: knee past ankle, at: P6, at_least: 5 cm}}
practice:
  blocks:
    - drills:
        - {{drill: rehearse and hold, at: P6, hold: 2 s, butt_within: 25 cm, count: {count}}}
"""


@dataclass(frozen=True, slots=True)
class TrueHold:
    """What is true at a time: the club head above the hands, deg, and butt past buckle, m."""

    above_deg: float
    butt_m: float


def held_plan(count: int = 3) -> Plan:
    """A plan that asks for the hold."""
    return parse_plan(PLAN.format(count=count), "plan.yaml")


@cache
def _filmed() -> tuple[Shot, WithoutBall]:
    camera = replace(FACE_ON, width_px=SIZE_PX[0], height_px=SIZE_PX[1])
    shot = Recipe("hold", "a hold", golfer=FIRST, camera=camera, fps=FPS).shot()
    return shot, slow_to_p6(SwingMotion(shot.body, SwingStyle()), HOLD_S, SLOWER)


def held_between_s() -> tuple[float, float]:
    """When the club is held at P6."""
    return held_from_s(SLOWER), held_from_s(SLOWER) + HOLD_S


@cache
def held_glimpses() -> tuple[Glimpse, ...]:
    """The whole clip."""
    with MediaPipePose() as estimator:
        return tuple(glimpses(idle_frames(IdleClip(*_filmed())), estimator))


def true_at(time_s: float) -> TrueHold:
    """The truth, as the picture shows the angle and as the bay has the lengths."""
    shot, motion = _filmed()
    moment = motion.moment_at(time_s)
    assert moment.bones is not None
    assert moment.club is not None
    seen = shot.picture_px(np.array([moment.club.butt_m, moment.club.head_m]))
    angle = float(direction_deg(seen[:1], seen[1:], _RIGHT)[0])
    hips = [moment.bones[shot.body.bone(name), :3, 3] for name in ("thigh_l", "thigh_r")]
    butt_m = float(moment.club.butt_m[0] - (hips[0] + hips[1])[0] / 2)
    return TrueHold((-(angle + 90.0) + 180.0) % 360.0 - 180.0, butt_m)
