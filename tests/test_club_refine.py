"""The close look: angle, spread and smear from one picture, wherever the hands were thought."""

import numpy as np
import pytest

from baycue.club.refine import Expectation, LocalFit, fit_near
from tests.smeared_shaft import HANDS_PX, LOUDEST, PX_PER_M, REACH, smeared, unrolled_about

SMEARS_DEG = [1.0, 7.0, 16.0, 28.0]
TOLERANCE_DEG = 1.5


def looked_at(
    angle_deg: float,
    smear_deg: float,
    seed: int,
    off_m: float = 0.0,
    loudness: float = 30.0,
) -> LocalFit:
    """The fit when the search was wrong by a few degrees and the hands by ``off_m`` sideways."""
    angle = np.radians(angle_deg)
    sideways = np.array([np.cos(angle), -np.sin(angle)])
    supposed_hands = HANDS_PX + off_m * PX_PER_M * sideways
    guess_deg = angle_deg + np.random.default_rng(seed).uniform(-4, 4)
    expected = Expectation(guess_deg, 6.0, max(smear_deg * 1.3, 1.0))
    picture = smeared(angle_deg, smear_deg, seed, loudness)
    return fit_near(unrolled_about(picture, supposed_hands), REACH, expected, LOUDEST)


@pytest.mark.parametrize("smear_deg", SMEARS_DEG)
@pytest.mark.parametrize("angle_deg", [-200.0, -90.0, -10.0, 3.0, 90.0])
def test_the_angle_is_found_to_a_degree_and_a_half(angle_deg: float, smear_deg: float) -> None:
    fit = looked_at(angle_deg, smear_deg, seed=1)
    assert fit.angle_deg == pytest.approx(angle_deg, abs=TOLERANCE_DEG)


@pytest.mark.parametrize("smear_deg", SMEARS_DEG)
@pytest.mark.parametrize("off_m", [-0.04, 0.04])
def test_hands_four_centimetres_off_do_not_bias_the_angle(off_m: float, smear_deg: float) -> None:
    """From the middle of the shaft, 4 cm are 4.5 degrees: far more than the tolerance."""
    errors = [looked_at(-90.0, smear_deg, seed, off_m).angle_deg + 90 for seed in range(6)]
    assert abs(float(np.mean(errors))) < TOLERANCE_DEG
    assert np.abs(errors).max() < 2 * TOLERANCE_DEG


@pytest.mark.parametrize("smear_deg", SMEARS_DEG)
def test_the_spread_is_about_what_the_angle_is_wrong_by(smear_deg: float) -> None:
    fits = [looked_at(-60.0, smear_deg, seed, loudness=12.0) for seed in range(12)]
    z = [(f.angle_deg + 60) / f.sigma_deg for f in fits]
    assert 0.05 < float(np.sqrt(np.mean(np.square(z)))) < 2.0


def test_the_smears_width_is_read_from_the_picture() -> None:
    read = [looked_at(-60.0, smear, seed=3).sweep_deg for smear in SMEARS_DEG]
    assert read == sorted(read)
    for sweep, smear in zip(read[1:], SMEARS_DEG[1:], strict=True):
        assert sweep == pytest.approx(smear, rel=0.6)


def test_a_shaft_gains_much_and_noise_little() -> None:
    shaft = [looked_at(-60.0, smear, seed=4).gain for smear in SMEARS_DEG]
    noise = [looked_at(-60.0, smear, seed=4, loudness=0.0).gain for smear in SMEARS_DEG]
    assert min(shaft) > 3 * max(noise)


def test_a_fainter_shaft_is_less_sure() -> None:
    loud, faint = (looked_at(-60.0, 16.0, seed=5, loudness=x) for x in (30.0, 6.0))
    assert faint.sigma_deg > loud.sigma_deg
    assert faint.gain < loud.gain
