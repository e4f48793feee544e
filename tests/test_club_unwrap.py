"""The picture unrolled about the hands counts angles as the shaft's are counted."""

import cv2
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baycue.club.background import FloatPicture
from baycue.club.unwrap import ROW_COUNT, ROWS_PER_DEG, Reach, loudest_smear, only_faint, unroll

HANDS_PX = np.array([203.0, 187.0])
REACH = Reach(inner_px=25.0, outer_px=95.0)


def line_at(angle_deg: float, target_sign: int) -> FloatPicture:
    """A thin bright line drawn by OpenCV from the hands: 0 down, +90 toward the target."""
    picture = np.zeros((400, 400), np.float32)
    angle = np.radians(angle_deg)
    end = HANDS_PX + 150 * np.array([target_sign * np.sin(angle), np.cos(angle)])
    start, stop = ((round(float(p[0] * 16)), round(float(p[1] * 16))) for p in (HANDS_PX, end))
    cv2.line(picture, start, stop, 100.0, 2, cv2.LINE_AA, 4)
    return picture


def brightest_deg(unrolled: FloatPicture) -> float:
    """The loudest row, to a fraction of a row."""
    rows = unrolled.mean(axis=1)
    near = (int(rows.argmax()) + np.arange(-4, 5)) % ROW_COUNT
    offset = float(rows[near] @ np.arange(-4, 5) / rows[near].sum())
    return float((near[4] + offset) / ROWS_PER_DEG % 360)


@settings(deadline=None)
@given(st.floats(-360, 360), st.booleans())
def test_a_line_appears_at_its_own_angle(angle_deg: float, target_on_right: bool) -> None:
    picture = line_at(angle_deg, 1 if target_on_right else -1)
    seen = brightest_deg(unroll(picture, HANDS_PX, REACH, target_on_right))
    assert (seen - angle_deg + 180) % 360 - 180 == pytest.approx(0, abs=0.6)


def test_mirrored_pictures_unroll_alike() -> None:
    rough = np.random.default_rng(4).normal(0, 1, (400, 400)).astype(np.float32)
    picture = np.asarray(cv2.GaussianBlur(rough, (0, 0), 2), dtype=np.float32)
    here = unroll(picture, HANDS_PX, REACH, target_on_right=True)
    mirrored_hands = np.array([399 - HANDS_PX[0], HANDS_PX[1]])
    there = unroll(
        np.ascontiguousarray(picture[:, ::-1]), mirrored_hands, REACH, target_on_right=False
    )
    assert np.corrcoef(here.ravel(), there.ravel())[0, 1] > 0.99


def test_columns_run_from_the_inner_to_the_outer_reach() -> None:
    ring = np.zeros((400, 400), np.float32)
    cv2.circle(ring, (203, 187), 60, 100.0, 1)
    unrolled = unroll(ring, HANDS_PX, REACH, target_on_right=True)
    assert unrolled.shape == (ROW_COUNT, 70)
    assert int(unrolled.mean(axis=0).argmax()) == pytest.approx(60 - 25, abs=1)


def test_outside_the_picture_there_is_nothing() -> None:
    everywhere = np.full((400, 400), 5.0, np.float32)
    unrolled = unroll(everywhere, np.array([10.0, 187.0]), REACH, target_on_right=True)
    toward, away = unrolled[90 * ROWS_PER_DEG], unrolled[270 * ROWS_PER_DEG]
    assert toward.min() == pytest.approx(5.0)
    assert np.all(away == 0)


@pytest.mark.parametrize("target_on_right", [True, False])
def test_it_is_opencvs_polar_picture_in_our_order(target_on_right: bool) -> None:
    """Reference: cv2.warpPolar, whose row 0 looks right and whose rows go clockwise."""
    picture = np.random.default_rng(5).normal(0, 10, (400, 400)).astype(np.float32)
    hands, outer = np.array([201.3, 186.6]), round(REACH.outer_px)
    centre = float(hands[0]), float(hands[1])
    flags = cv2.INTER_LINEAR | cv2.WARP_FILL_OUTLIERS
    polar = cv2.warpPolar(picture, (outer, ROW_COUNT), centre, REACH.outer_px, flags)
    rows = np.arange(ROW_COUNT) * (-1 if target_on_right else 1) + ROW_COUNT // 4
    wanted = polar[rows % ROW_COUNT, round(REACH.inner_px) :]
    seen = unroll(picture, hands, REACH, target_on_right)
    assert np.abs(seen - wanted).max() < 0.01


@pytest.mark.parametrize("flicker", [0.7, 2.0, 5.0])
def test_a_white_shaft_smeared_over_ten_degrees_keeps_a_seventh_and_more_is_no_shaft(
    flicker: float,
) -> None:
    """12 mm on an arc of 0.5 m times 10 degrees, 87 mm: 0.14 of 255 grey levels."""
    most = 255 * 12 / 87.3 / flicker
    row = np.array([[0.0, 0.98, -0.98, 1.02, -1.02]], np.float32) * np.float32(most)
    faint = only_faint(row, 10.0, loudest_smear(flicker))
    assert faint[0] == pytest.approx([0.0, row[0, 1], row[0, 2], 0.0, 0.0])
