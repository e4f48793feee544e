"""The camera's bearing: geometry by hand, and the constants' own file."""

from dataclasses import replace

import numpy as np
import pytest

from baycue.measures.bearing import bearing_of, stance_seen
from baycue.measures.calibration import BEARING, CALIBRATION
from baycue.measures.evidence import SwingEvidence
from baycue.pose.pose import Landmark
from tests.canned_evidence import Filmed, evidence_of
from tests.stick_golfer import Pinhole


def turned(evidence: SwingEvidence, by_deg: float) -> SwingEvidence:
    """Every pose's model turned about the vertical: the lead side away from the camera."""
    turn, toward = np.radians(by_deg), evidence.stance.toward_target
    x, z = np.cos(turn), np.sin(turn) * toward
    about = np.array([[x, 0.0, -z], [0.0, 1.0, 0.0], [z, 0.0, x]])
    return replace(
        evidence, poses=tuple(replace(p, world_m=p.world_m @ about.T) for p in evidence.poses)
    )


@pytest.mark.parametrize("mirrored", [False, True], ids=["plain", "mirrored"])
@pytest.mark.parametrize("by_deg", [-8.0, 3.0, 10.0])
def test_a_turned_body_is_read_as_turned(by_deg: float, mirrored: bool) -> None:
    square = evidence_of(Filmed(mirrored=mirrored))
    before, after = stance_seen(square), stance_seen(turned(square, by_deg))
    assert after.hips_deg - before.hips_deg == pytest.approx(by_deg, abs=0.2)
    assert after.shoulders_deg - before.shoulders_deg == pytest.approx(by_deg, abs=0.2)
    assert after.heels_deg - before.heels_deg == pytest.approx(by_deg, abs=0.2)


def test_the_place_is_the_angle_to_the_hips() -> None:
    """atan of offset over distance: the pinhole's own geometry."""
    there = stance_seen(evidence_of(Filmed(camera=Pinhole(aside_m=0.5))))
    here = stance_seen(evidence_of(Filmed()))
    moved = abs(there.place_deg - here.place_deg)
    assert moved == pytest.approx(np.degrees(np.arctan(0.5 / Pinhole().distance_m)), abs=0.7)


@pytest.mark.parametrize("mirrored", [False, True], ids=["plain", "mirrored"])
def test_a_camera_nearer_the_target_has_a_positive_bearing(mirrored: bool) -> None:
    """Seen from there the lead side is nearer the camera than the trail side."""
    square = evidence_of(Filmed(mirrored=mirrored))
    toward = bearing_of(turned(square, -8.0)).deg - bearing_of(turned(square, 8.0)).deg
    assert toward > 8.0


def test_the_spread_is_at_least_what_the_fit_left() -> None:
    assert bearing_of(evidence_of(Filmed())).sigma_deg > BEARING.sigma_deg > 0


def test_the_constants_tell_how_they_were_made() -> None:
    assert "bench-calibrate" in CALIBRATION.made["by"]
    assert "no real golfer" in CALIBRATION.made["what"]
    assert CALIBRATION.made["fitted_on"] != CALIBRATION.made["sigmas_from"]


def test_sides_are_lead_and_trail() -> None:
    """A golfer whose lead heel alone is set back turns the heels' line, and no other."""
    square = evidence_of(Filmed())
    heel = square.stance.lead.heel

    def set_back(world_m: np.ndarray) -> np.ndarray:
        moved = world_m.copy()
        moved[heel, 2] += 0.05
        return moved

    poses = tuple(replace(p, world_m=set_back(p.world_m)) for p in square.poses)
    there, here = stance_seen(replace(square, poses=poses)), stance_seen(square)
    assert there.heels_deg > here.heels_deg + 3
    assert there.hips_deg == here.hips_deg
    assert heel in (Landmark.LEFT_HEEL, Landmark.RIGHT_HEEL)
