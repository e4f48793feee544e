"""Pictures of a rendered person with arms spread, and where the joints truly are."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from baycue.capture.frame import Frame, Picture
from baycue.pose.pose import FloatArray
from baycue.synthetic.body import load_body
from baycue.synthetic.camera import Camera
from baycue.synthetic.clip import Shot, render_frame, stage_of
from baycue.synthetic.scene import Moment
from baycue.synthetic.sensor import QUIET
from baycue.synthetic.stage import Stage

WHOLE_BODY_M = 4.2
"""Camera distance from which the whole body is in the picture."""


@dataclass(frozen=True, slots=True, eq=False)
class Posed:
    """A picture and the true positions, (x, y) px, of the bones' heads by bone name."""

    picture: Picture
    joints: dict[str, FloatArray]

    def frame(self, index: int = 0) -> Frame:
        """The picture as frame ``index`` of 30 a second."""
        return Frame(index, index * 33_333_333, self.picture)


@lru_cache(maxsize=64)
def standing_golfer(
    arm_deg: float = 0.0, distance_m: float = WHOLE_BODY_M, height_m: float = 1.1
) -> Posed:
    """Someone standing face-on with the left arm raised by ``arm_deg`` from half-raised."""
    shot, stage = _shot(distance_m, height_m)
    bones = _with_arm_raised(arm_deg)
    picture = render_frame(shot, stage, lambda _: Moment(bones), 0)
    joints = shot.picture_px(bones[:, :3, 3])
    return Posed(picture, dict(zip(shot.body.bone_names, joints, strict=True)))


@lru_cache(maxsize=2)
def empty_bay() -> Picture:
    """The same bay with nobody in it."""
    shot, stage = _shot(WHOLE_BODY_M, 1.1)
    return render_frame(shot, stage, lambda _: Moment(None), 0)


@lru_cache(maxsize=8)
def _shot(distance_m: float, height_m: float) -> tuple[Shot, Stage]:
    camera = Camera(distance_m=distance_m, height_m=height_m)
    shot = Shot(load_body("adult_male"), camera, shutter_s=1 / 4000, noise=QUIET)
    return shot, stage_of(shot)


def _with_arm_raised(arm_deg: float) -> FloatArray:
    """The bones at rest, the left arm turned about the shoulder in the picture's plane."""
    body = load_body("adult_male")
    bones = body.bone_rest.copy()
    shoulder = body.bone_names.index("upperarm_l")
    cosine, sine = np.cos(np.radians(arm_deg)), np.sin(np.radians(arm_deg))
    turn = np.eye(4)
    turn[:2, :2] = [[cosine, -sine], [sine, cosine]]
    turn[:3, 3] = bones[shoulder, :3, 3] - turn[:3, :3] @ bones[shoulder, :3, 3]
    arm = {shoulder}
    for bone, parent in enumerate(body.bone_parents):
        if parent in arm:
            arm.add(bone)
    for bone in arm:
        bones[bone] = turn @ bones[bone]
    return bones
