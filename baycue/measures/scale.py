"""Pixels to metres at the golfer's distance: by stature, by a stick or by a board."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.bay.board_pose import board_pose
from baycue.bay.stick_pose import stick_pose
from baycue.measures.evidence import SwingEvidence
from baycue.measures.lens import stretch_share
from baycue.plan.camera_facts import ScaleBy
from baycue.pose.pose import Landmark, Pose
from baycue.pose.sides import LEFT, RIGHT, Side
from baycue.swing.swing import CheckpointName

FloatArray = NDArray[np.float64]

BODY_SHARE = 0.246 + 0.245 + (0.818 - 0.530)
"""Ankle to knee to hip, and hip to shoulder level, as a share of stature: Drillis and
Contini 1966, as printed in Winter 2009, figure 4.1."""

SCALE_SIGMA_SHARE = 0.04
"""How far people differ from those proportions and the pose model from them; one sigma."""

_BODY_DEPTH_SIGMA_M = 0.04
"""How far knees and head are from the distance that the ruler tells, on average."""
_BOARD_PLACED_SIGMA_M = 0.05
"""How well people stand a board in line with their ankles; common practice, no source."""
_TOES_SHARE = 0.105
"""Ankle joint to the tip of the toes, of stature, the foot turned out a little: most of the
foot's 0.152 (Drillis and Contini 1966); what share of it is common practice, no source."""
_USUAL_IN_FRONT_M, _USUAL_SIGMA_M, _STATED_SIGMA_M = 0.05, 0.05, 0.025
"""Toes to stick if the plan does not say, and one-sigma; common practice, no source."""
_CONTRADICTION_SIGMAS = 3.0


@dataclass(frozen=True, slots=True)
class Scale:
    """``px_per_m`` at the golfer's distance and how many metres one model metre is.

    ``sigma_share``: one-sigma of every length in metres, as a share.  ``by``: what told it.
    """

    px_per_m: float
    metres_per_model_metre: float
    sigma_share: float = SCALE_SIGMA_SHARE
    by: ScaleBy = ScaleBy.STATURE


@dataclass(frozen=True, slots=True)
class Told:
    """Pixels per metre at the golfer's distance, and their one-sigma as a share."""

    px_per_m: float
    share: float


def scale_of(evidence: SwingEvidence) -> Scale:
    """The scale of the picture at address.

    The pose model gives the body in metres of its own.  Their ratio to pixels comes from
    fitting the one to the other; their ratio to true metres from the length of the body,
    and from a stick or board of known size if there is one: the surer counts for more.
    """
    poses = address_poses(evidence)
    px_per_model_m = _px_per_model_metre(poses)
    body = Told(px_per_m_by_body(poses, evidence.stature_m), SCALE_SIGMA_SHARE)
    ruler = by_ruler(evidence)
    told = _together(body, ruler) if ruler else body
    by = evidence.ruler.by if told is not body else ScaleBy.STATURE
    bowed = stretch_share(evidence.camera, np.concatenate([p.pixels for p in poses]))
    share = float(np.hypot(told.share, bowed))
    return Scale(told.px_per_m, px_per_model_m / told.px_per_m, share, by)


def scale_line(evidence: SwingEvidence) -> str:
    """Where metres come from and how sure they are, in a sentence."""
    scale, asked = scale_of(evidence), evidence.ruler.by
    from_what = f"metres come from the golfer's stature, give or take {scale.sigma_share:.1%}"
    if scale.by is not ScaleBy.STATURE:
        return f"Metres come from the {asked.value}, give or take {scale.sigma_share:.1%}."
    if asked is ScaleBy.STATURE:
        return f"M{from_what[1:]}."
    seen = evidence.ruler.board if asked is ScaleBy.BOARD else evidence.ruler.stick
    fault = "does not agree with the stature" if seen else "was not found in the picture"
    return f"The {asked.value} {fault}: {from_what}."


def stick_beyond_ankles_m(stature_m: float, in_front_m: float | None) -> tuple[float, float]:
    """How far the stick lies from the ankles toward the camera, and its one-sigma, metres."""
    gap = _USUAL_IN_FRONT_M if in_front_m is None else in_front_m
    sigma = _USUAL_SIGMA_M if in_front_m is None else _STATED_SIGMA_M
    return _TOES_SHARE * stature_m + gap, sigma


def by_ruler(evidence: SwingEvidence) -> Told | None:
    """What the stick or the board alone tells, if it was seen."""
    if evidence.ruler.board is not None:
        return _by_board(evidence)
    return _by_stick(evidence) if evidence.ruler.stick is not None else None


def _by_board(evidence: SwingEvidence) -> Told:
    """The board stands at the ankles' distance, as well as people place it."""
    ruler, camera = evidence.ruler, evidence.camera
    assert ruler.board is not None
    size = camera.width_px, camera.height_px
    pose = board_pose(ruler.board, camera.focal_px, size, ruler.printed_share)
    off_m = np.hypot(_BOARD_PLACED_SIGMA_M, _BODY_DEPTH_SIGMA_M)
    share = np.hypot(pose.px_per_m_share, off_m * pose.px_per_m / camera.focal_px)
    return Told(pose.px_per_m, float(share))


def _by_stick(evidence: SwingEvidence) -> Told:
    """The stick lies before the toes; the ankles are that much further from the camera."""
    ruler, camera = evidence.ruler, evidence.camera
    assert ruler.stick is not None
    size = camera.width_px, camera.height_px
    pose = stick_pose(ruler.stick, ruler.stick_length_m, camera.focal_px, size, evidence.level)
    beyond_m, beyond_sigma_m = stick_beyond_ankles_m(evidence.stature_m, ruler.stick_in_front_m)
    away_m = pose.distance_m + beyond_m
    off = np.linalg.norm([beyond_sigma_m, _BODY_DEPTH_SIGMA_M, 0.12 * beyond_m]) / away_m
    yaw = np.radians(pose.yaw_deg)
    across = _ankles_across(evidence)
    px_per_m = camera.focal_px / away_m * float(np.cos(yaw) - across * np.sin(yaw))
    return Told(px_per_m, float(np.hypot(pose.distance_share, off)))


def _ankles_across(evidence: SwingEvidence) -> float:
    """Where the lead ankle is, focal lengths to the right of the picture's middle."""
    ankle = evidence.stance.lead.ankle
    seen = float(np.median([p.pixel(ankle)[0] for p in address_poses(evidence)]))
    return (seen - evidence.camera.width_px / 2) / evidence.camera.focal_px


def _together(body: Told, ruler: Told) -> Told:
    """Both, weighted by how sure they are; the body alone if they contradict each other."""
    apart = np.log(ruler.px_per_m / body.px_per_m)
    if abs(apart) > _CONTRADICTION_SIGMAS * np.hypot(ruler.share, body.share):
        return body
    weights = np.array([body.share, ruler.share]) ** -2.0
    between = np.exp(apart * weights[1] / weights.sum())
    return Told(float(body.px_per_m * between), float(weights.sum() ** -0.5))


def px_per_m_by_body(poses: Sequence[Pose], stature_m: float) -> float:
    """What stature and poses tell."""
    model_body = float(np.median(_body_in_model_metres(poses)))
    return _px_per_model_metre(poses) * model_body / (BODY_SHARE * stature_m)


def address_poses(evidence: SwingEvidence) -> tuple[Pose, ...]:
    """The poses while the golfer stands at address, at least one."""
    takeaway = evidence.swing.at(CheckpointName.TAKEAWAY)
    until = takeaway.time_ns if takeaway else evidence.poses[0].stamp_ns
    return tuple(p for p in evidence.poses if p.stamp_ns <= until) or evidence.poses[:1]


def _px_per_model_metre(poses: Sequence[Pose]) -> float:
    joints = [*_leg(LEFT), *_leg(RIGHT), LEFT.shoulder, RIGHT.shoulder]
    model = np.stack([p.world_m for p in poses])[:, joints, :2]
    seen = np.stack([p.pixels for p in poses])[:, joints]
    model, seen = (each - each.mean(axis=1, keepdims=True) for each in (model, seen))
    return float(np.median((model * seen).sum(axis=(1, 2)) / (model * model).sum(axis=(1, 2))))


def _leg(side: Side) -> tuple[Landmark, Landmark, Landmark]:
    return side.hip, side.knee, side.ankle


def _body_in_model_metres(poses: Sequence[Pose]) -> FloatArray:
    """Legs and trunk of each pose, (N,)."""
    world_m = np.stack([p.world_m for p in poses])
    parts = [np.diff(world_m[:, _leg(side)], axis=1) for side in (LEFT, RIGHT)]
    legs = [np.linalg.norm(part, axis=2).sum(axis=1) for part in parts]
    shoulders = world_m[:, [LEFT.shoulder, RIGHT.shoulder]].mean(axis=1)
    hips = world_m[:, [LEFT.hip, RIGHT.hip]].mean(axis=1)
    return np.asarray(np.mean(legs, axis=0) + np.linalg.norm(shoulders - hips, axis=1))
