"""From remembered pictures and poses to what the club and the ball are looked for in."""

from collections.abc import Sequence

import numpy as np

from baycue.club.background import GreyPicture
from baycue.club.ball import BallScene
from baycue.club.scene import ClubScene
from baycue.measures.scale import BODY_SHARE
from baycue.pose.pose import Pose
from baycue.pose.sides import LEFT, RIGHT, Stance
from baycue.swing.arms import lead_arm_deg
from baycue.swing.events import StrikeSeen
from baycue.swing.hands import bodies_px, grips_px

SHRINK = 2
"""Club and ball are looked for in pictures this many times smaller than the pose's."""

_TOP_SLACK_NS = 120_000_000
_BALL_BESIDE_BODIES, _BALL_ABOVE_BODIES, _BALL_BELOW_BODIES = 0.9, 0.15, 0.6


def club_scene(
    strike: StrikeSeen, greys: Sequence[GreyPicture], poses: tuple[Pose, ...], stance: Stance
) -> ClubScene:
    """The frames of one swing; ``greys`` and ``poses`` go together one by one."""
    past_top = np.array([p.stamp_ns for p in poses]) - strike.top_ns
    return ClubScene(
        stamps_ns=tuple(p.stamp_ns for p in poses),
        frame_indices=tuple(p.frame_index for p in poses),
        greys=greys,
        hands_px=grips_px(poses) / SHRINK,
        arm_deg=lead_arm_deg(poses, stance),
        body_px=_body_px(poses[: max(int((past_top <= 0).sum()), 1)]),
        turning=(np.sign(past_top) * (np.abs(past_top) > _TOP_SLACK_NS)).astype(np.int8),
        target_on_right=stance.toward_target > 0,
    )


def ball_scene(
    strike: StrikeSeen, greys: Sequence[GreyPicture], poses: tuple[Pose, ...], stature_m: float
) -> BallScene:
    """The ground about the feet, where the ball lies."""
    body_px = _body_px(poses)
    return BallScene(
        greys=greys,
        stamps_ns=tuple(p.stamp_ns for p in poses),
        ground_box_px=_ground_box_px(poses[0], body_px, greys[0].shape),
        px_per_m=body_px / (BODY_SHARE * stature_m),
        top_ns=strike.top_ns,
        return_ns=strike.return_ns,
    )


def _body_px(poses: tuple[Pose, ...]) -> float:
    return float(np.median(bodies_px(poses))) / SHRINK


def _ground_box_px(pose: Pose, body_px: float, shape: tuple[int, ...]) -> tuple[int, int, int, int]:
    feet = pose.pixels[[LEFT.ankle, RIGHT.ankle, LEFT.toe, RIGHT.toe]] / SHRINK
    (left, top), (right, bottom) = feet.min(axis=0), feet.max(axis=0)
    return (
        max(round(left - _BALL_BESIDE_BODIES * body_px), 0),
        max(round(top - _BALL_ABOVE_BODIES * body_px), 0),
        min(round(right + _BALL_BESIDE_BODIES * body_px), shape[1]),
        min(round(bottom + _BALL_BELOW_BODIES * body_px), shape[0]),
    )
