"""MediaPipe, trained on real people, finds the synthetic golfer where the truth says."""

from dataclasses import dataclass

import numpy as np
import pytest

from baycue.capture.frame import Frame
from baycue.plan.stance import View
from baycue.pose.landmarker import MediaPipePose
from baycue.pose.pose import Landmark
from baycue.synthetic.bay import CLUTTERED
from baycue.synthetic.body import load_body
from baycue.synthetic.camera import Camera
from baycue.synthetic.clip import Shot, render_frame, stage_of
from baycue.synthetic.clothes import COLOURWAYS
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.swing_style import SwingStyle

JOINTS = {
    Landmark.LEFT_HIP: "thigh_l",
    Landmark.RIGHT_HIP: "thigh_r",
    Landmark.LEFT_KNEE: "calf_l",
    Landmark.RIGHT_KNEE: "calf_r",
    Landmark.LEFT_ANKLE: "foot_l",
    Landmark.RIGHT_ANKLE: "foot_r",
    Landmark.LEFT_WRIST: "hand_l",
    Landmark.RIGHT_WRIST: "hand_r",
}
# Of stature.  Joint centres are not defined alike, so some bias is to be expected: 30 to
# 50 mm at hip and knee on real people (Needham et al. 2021, Sci Rep 11, abstract).
TOLERANCE = 0.04


@dataclass(frozen=True)
class Golfer:
    body: str
    stature_m: float
    clothes: str


GOLFERS = [
    Golfer("adult_male", 1.80, "blue_and_grey"),
    Golfer("older_heavy_male", 1.74, "red_and_khaki"),
    Golfer("adult_female", 1.66, "teal_and_white"),
]


@pytest.mark.parametrize("view", View)
@pytest.mark.parametrize("golfer", GOLFERS, ids=lambda g: g.body)
def test_landmarks_fall_on_the_true_joints_at_address(golfer: Golfer, view: View) -> None:
    body = load_body(golfer.body, golfer.stature_m)
    motion = SwingMotion(body, SwingStyle())
    camera = Camera(view, distance_m=3.6, tilt_deg=4.0, field_of_view_deg=62.0)
    shot = Shot(body, camera, CLUTTERED, COLOURWAYS[golfer.clothes])
    picture = render_frame(shot, stage_of(shot), motion.moment_at, 0)
    with MediaPipePose() as estimator:
        pose = estimator.estimate(Frame(0, 0, picture))
    assert pose is not None
    bones = motion.moment_at(0.0).bones
    assert bones is not None
    stature_px = camera.focal_px * golfer.stature_m / camera.distance_m
    for landmark, bone in JOINTS.items():
        (truth,) = shot.picture_px(bones[body.bone(bone), :3, 3][None])
        off = np.linalg.norm(pose.pixel(landmark) - truth) / stature_px
        assert off < TOLERANCE, f"{landmark.name} is {off:.1%} of stature off"
