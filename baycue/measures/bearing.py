"""From how far round the golfer the camera looks, told by how the golfer stands."""

from dataclasses import dataclass

import numpy as np

from baycue.measures.calibration import BEARING
from baycue.measures.evidence import SwingEvidence
from baycue.measures.scale import address_poses
from baycue.pose.pose import FloatArray, Landmark
from baycue.pose.sides import LEFT, RIGHT

STANCE_SIGMA_DEG = 2.0
"""Golfers stand a little open or closed to the target line; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Bearing:
    """How far the line of sight to the golfer is from square to the target line, deg.

    Positive: the camera stands nearer the target than the golfer does.  ``sigma_deg``: one-sigma.
    """

    deg: float
    sigma_deg: float


@dataclass(frozen=True, slots=True)
class StanceSeen:
    """What tells the bearing at address, deg, all positive alike.

    ``place``: the golfer's place in the picture, as an angle toward the target.  The others:
    how the pose model turns the line from trail to lead side away from the camera.
    """

    place_deg: float
    heels_deg: float
    shoulders_deg: float
    hips_deg: float


def bearing_of(evidence: SwingEvidence) -> Bearing:
    """The bearing, taking the golfer to stand square."""
    seen, by = stance_seen(evidence), BEARING
    deg = (
        by.constant_deg
        + by.place * seen.place_deg
        + by.heels * seen.heels_deg
        + by.shoulders * seen.shoulders_deg
        + by.hips * seen.hips_deg
    )
    return Bearing(deg, float(np.hypot(by.sigma_deg, STANCE_SIGMA_DEG)))


def stance_seen(evidence: SwingEvidence) -> StanceSeen:
    """The median over address."""
    poses = address_poses(evidence)
    model_m = np.median([p.world_m for p in poses], axis=0)
    hips_px = np.median([p.pixels[[LEFT.hip, RIGHT.hip], 0].mean() for p in poses])
    lead, trail, toward = evidence.stance.lead, evidence.stance.trail, evidence.stance.toward_target
    slope = (hips_px - evidence.camera.width_px / 2) / evidence.camera.focal_px
    return StanceSeen(
        float(np.degrees(np.arctan(slope * toward))),
        _turned_deg(model_m, lead.heel, trail.heel, toward),
        _turned_deg(model_m, lead.shoulder, trail.shoulder, toward),
        _turned_deg(model_m, lead.hip, trail.hip, toward),
    )


def _turned_deg(model_m: FloatArray, lead: Landmark, trail: Landmark, toward: int) -> float:
    across, _, away = model_m[lead] - model_m[trail]
    return float(np.degrees(np.arctan2(away, across * toward)))
