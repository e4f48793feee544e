"""Somebody beside the golfer is noticed; the golfer's own body, arms and club are not."""

from dataclasses import replace

import cv2
import numpy as np
import pytest

from baycue.bay import passer_by
from baycue.club.background import GreyPicture, StillBackground
from baycue.club.reading import Evidence, ShaftReading
from baycue.measures.calibration import KNEE
from baycue.measures.catalogue import measure_named
from baycue.measures.evidence import SwingEvidence
from baycue.measures.when import When
from baycue.pose.pose import Pose
from baycue.pose.sides import LEFT, RIGHT
from baycue.swing.hands import grip_px, hand_sample
from baycue.swing.swing import CheckpointName
from tests.canned_evidence import Filmed, evidence_of
from tests.canned_readings import RIGHT_HANDER
from tests.canned_swing import canned_swing
from tests.stick_golfer import frame_times_s, poses_of

SHRINK = 2
SHAPE = (360, 640)
TIMES_S = frame_times_s(30, 0.05, 0.35)
POSES = poses_of(TIMES_S, canned_swing())
BODY_PX = float(np.median([hand_sample(p).body_px for p in POSES])) / SHRINK
BAY = StillBackground(np.full(SHAPE, 110, np.uint8), 1.5)


def readings() -> list[ShaftReading]:
    angles = canned_swing().shaft_deg(TIMES_S)
    return [
        ShaftReading(p.frame_index, p.stamp_ns, float(a), 1.0, 10.0, Evidence.PICTURE)
        for p, a in zip(POSES, angles, strict=True)
    ]


def picture(pose: Pose, shaft_deg: float, walker_px: int | None) -> GreyPicture:
    """The stick golfer with some flesh on, the club, and a walker that many px beside the hips."""
    drawn = BAY.picture.copy()
    for side in (LEFT, RIGHT):
        for limb in ((side.hip, side.knee, side.ankle), (side.shoulder, side.elbow, side.wrist)):
            path = np.round(pose.pixels[list(limb)] / SHRINK).astype(np.int32)
            cv2.polylines(drawn, [path], False, 40, int(0.12 * BODY_PX))
    trunk = pose.pixels[[LEFT.shoulder, RIGHT.shoulder, RIGHT.hip, LEFT.hip]] / SHRINK
    cv2.fillPoly(drawn, [np.round(trunk).astype(np.int32)], 60)
    hands, angle = grip_px(pose) / SHRINK, np.radians(shaft_deg)
    head = hands + 0.6 * BODY_PX * np.array([np.sin(angle), np.cos(angle)])
    cv2.line(drawn, tuple(hands.astype(int)), tuple(head.astype(int)), 240, 3)
    if walker_px is not None:
        hips = pose.pixels[[LEFT.hip, RIGHT.hip]].mean(axis=0) / SHRINK
        x, y = int(hips[0]) + walker_px, int(hips[1])
        half, tall = int(0.1 * BODY_PX), int(0.4 * BODY_PX)
        cv2.rectangle(drawn, (x - half, y - tall), (x + half, y + tall), 200, cv2.FILLED)
    return drawn


def new_beside(walker_bodies: float | None) -> float:
    walker_px = None if walker_bodies is None else round(walker_bodies * BODY_PX)
    angles = canned_swing().shaft_deg(TIMES_S)
    greys = [picture(p, float(a), walker_px) for p, a in zip(POSES, angles, strict=True)]
    new = passer_by.new_beside(greys, POSES, BAY, BODY_PX, SHRINK)
    return passer_by.area_bodies2(new, POSES, readings(), RIGHT_HANDER, BODY_PX, SHRINK)


def test_the_golfer_alone_is_nobody_beside_the_golfer() -> None:
    assert new_beside(None) < 0.01


@pytest.mark.parametrize("walker_bodies", [-0.4, 0.4])
def test_somebody_close_behind_is_noticed(walker_bodies: float) -> None:
    assert new_beside(walker_bodies) > 0.03


def test_somebody_far_aside_does_not_matter() -> None:
    assert new_beside(1.5) < 0.01


def test_company_widens_what_the_landmarks_tell() -> None:
    alone: SwingEvidence = evidence_of(Filmed())
    crowded = replace(alone, beside_bodies2=0.05)
    knee = measure_named("knee past ankle")
    assert knee is not None
    at = When(CheckpointName.P6, CheckpointName.P6)
    clear, wide = knee.take(alone, at), knee.take(crowded, at)
    assert not alone.in_company
    assert crowded.in_company
    assert wide.value == clear.value
    added_m = np.sqrt(wide.sigma**2 - clear.sigma**2)
    beside_the_knees_m = KNEE.sigma_m * np.sqrt(crowded.company_factor**2 - 1)
    assert added_m == pytest.approx(beside_the_knees_m, rel=0.05)
    assert added_m > 0.005
