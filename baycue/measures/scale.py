"""Pixels to metres at the golfer's distance, from the stature in the plan."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.measures.evidence import SwingEvidence
from baycue.pose.pose import Landmark, Pose
from baycue.pose.sides import LEFT, RIGHT, Side
from baycue.swing.swing import CheckpointName

FloatArray = NDArray[np.float64]

BODY_SHARE = 0.246 + 0.245 + (0.818 - 0.530)
"""Ankle to knee to hip, and hip to shoulder level, as a share of stature: Drillis and
Contini 1966, as printed in Winter 2009, figure 4.1."""

SCALE_SIGMA_SHARE = 0.04
"""How far people differ from those proportions and the pose model from them; one sigma."""


@dataclass(frozen=True, slots=True)
class Scale:
    """``px_per_m`` at the golfer's distance and how many metres one model metre is."""

    px_per_m: float
    metres_per_model_metre: float


def scale_of(evidence: SwingEvidence) -> Scale:
    """The scale of the picture at address.

    The pose model gives the body in metres of its own.  Their ratio to pixels comes from
    fitting the one to the other; their ratio to true metres from the length of the body.
    """
    poses = address_poses(evidence)
    px_per_model_m = float(np.median([_px_per_model_metre(p) for p in poses]))
    model_body = float(np.median([_body_in_model_metres(p) for p in poses]))
    ratio = BODY_SHARE * evidence.stature_m / model_body
    return Scale(px_per_model_m / ratio, ratio)


def address_poses(evidence: SwingEvidence) -> tuple[Pose, ...]:
    """The poses while the golfer stands at address, at least one."""
    takeaway = evidence.swing.at(CheckpointName.TAKEAWAY)
    until = takeaway.time_ns if takeaway else evidence.poses[0].stamp_ns
    return tuple(p for p in evidence.poses if p.stamp_ns <= until) or evidence.poses[:1]


def _px_per_model_metre(pose: Pose) -> float:
    joints = [*_leg(LEFT), *_leg(RIGHT), LEFT.shoulder, RIGHT.shoulder]
    model, seen = pose.world_m[joints, :2], pose.pixels[joints]
    model, seen = model - model.mean(axis=0), seen - seen.mean(axis=0)
    return float((model * seen).sum() / (model * model).sum())


def _leg(side: Side) -> tuple[Landmark, Landmark, Landmark]:
    return side.hip, side.knee, side.ankle


def _body_in_model_metres(pose: Pose) -> float:
    legs = [
        float(np.linalg.norm(np.diff(pose.world_m[list(_leg(side))], axis=0), axis=1).sum())
        for side in (LEFT, RIGHT)
    ]
    shoulders = pose.world_m[[LEFT.shoulder, RIGHT.shoulder]].mean(axis=0)
    hips = pose.world_m[[LEFT.hip, RIGHT.hip]].mean(axis=0)
    return float(np.mean(legs)) + float(np.linalg.norm(shoulders - hips))
