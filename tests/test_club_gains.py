"""Gains of all offsets, sweeps and angles at once, against one window of the picture at a time."""

import numpy as np
import pytest

from baycue.club.background import FloatPicture
from baycue.club.gains import (
    ANGLES_DEG,
    OFFSET_SHARES,
    SEARCH_DEG,
    SWEEPS_DEG,
    FloatArray,
    Nearby,
    gains_near,
)
from baycue.club.unwrap import ROW_COUNT, ROWS_PER_DEG, only_faint
from tests.smeared_shaft import LOUDEST, REACH, smeared, unrolled_about

STRETCHES, ALIKE_FROM_DEG, CORRELATION = 10, (1.0, 7.0, 16.0, 32.0), 40.0


def window(unrolled: FloatPicture, sweep_deg: float, offset: int, look: Nearby) -> FloatArray:
    """One offset's stretch means, (stretches, rows), turned back and less their medians."""
    first = max(each for each in ALIKE_FROM_DEG if each <= sweep_deg)
    columns = unrolled.shape[1] // STRETCHES
    used = np.clip(only_faint(unrolled[:, : STRETCHES * columns], first, LOUDEST), -6, 6)
    means = used.reshape(ROW_COUNT, STRETCHES, columns).astype(float).mean(axis=2) * columns**0.5
    radii = REACH.inner_px + columns * (np.arange(STRETCHES) + 0.5)
    turn_deg = np.degrees(np.arctan2(OFFSET_SHARES[offset] * REACH.outer_px, radii))
    half = ROWS_PER_DEG * (SEARCH_DEG + round(SWEEPS_DEG[look.sweep_count - 1] / 2) + 4)
    rows = look.middle_row + np.arange(-half, half + 1)
    turned = np.round(turn_deg * ROWS_PER_DEG).astype(int)[:, None] + rows
    there = means.T[np.arange(STRETCHES)[:, None], turned % ROW_COUNT]
    return np.asarray(there - np.median(there[:, ::2], axis=1, keepdims=True))


def gain(there: FloatArray, sweep_deg: float, angle: int) -> float:
    """N/2 log(S0 / S1) of a step of free height, the likelihood ratio of any textbook."""
    half = max(round(sweep_deg * ROWS_PER_DEG / 2), 1)
    middle = there.shape[1] // 2 - len(ANGLES_DEG) // 2 + angle
    step = there[:, middle - half : middle + half + 1]
    whole = (there**2).sum(axis=1) + there.shape[1]
    left = np.maximum(1 - step.sum(axis=1) ** 2 / (step.shape[1] * whole), 0.001)
    return float(-0.5 * there.shape[1] * np.log(left).sum() / CORRELATION)


@pytest.mark.parametrize(("angle_deg", "smear_deg"), [(-91.0, 2.0), (-4.0, 9.0), (88.0, 28.0)])
@pytest.mark.parametrize("sweep_count", [1, 5, 10])
def test_each_is_what_its_own_window_says(
    angle_deg: float, smear_deg: float, sweep_count: int
) -> None:
    unrolled = unrolled_about(smeared(angle_deg, smear_deg, seed=1))
    look = Nearby(round(angle_deg * ROWS_PER_DEG) + 5, sweep_count)
    gains = gains_near(unrolled, REACH, look, LOUDEST)
    assert gains.shape == (len(OFFSET_SHARES), sweep_count, len(ANGLES_DEG))
    for offset in range(0, len(OFFSET_SHARES), 3):
        for sweep in range(sweep_count):
            there = window(unrolled, SWEEPS_DEG[sweep], offset, look)
            for angle in (0, 20, 28, len(ANGLES_DEG) - 1):
                wanted = gain(there, SWEEPS_DEG[sweep], angle)
                assert gains[offset, sweep, angle] == pytest.approx(wanted, abs=1e-4)


def test_a_picture_without_a_shaft_gains_next_to_nothing() -> None:
    unrolled = unrolled_about(smeared(-90.0, 2.0, seed=2, loudness=0.0))
    assert gains_near(unrolled, REACH, Nearby(-180, 10), LOUDEST).max() < 2.0
