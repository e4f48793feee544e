"""Evidence for a shaft at each angle, sharp and smeared."""

import numpy as np
import pytest

from baycue.club.evidence import WIDTHS_DEG, angular_evidence
from tests.smeared_shaft import LOUDEST, smeared, unrolled_about

ANGLES_DEG = [-170.0, -90.0, -33.0, 0.0, 61.0, 90.0, 144.0]
SMEARS_DEG = [0.5, 5.0, 10.0, 18.0, 30.0]
FAINT, LOUD = 7.0, 30.0


def off_deg(angle_deg: float, true_deg: float) -> float:
    return (angle_deg - true_deg + 180) % 360 - 180


@pytest.mark.parametrize("smear_deg", SMEARS_DEG)
@pytest.mark.parametrize("angle_deg", ANGLES_DEG)
def test_at_its_own_width_a_smear_is_seen_at_its_own_angle(
    angle_deg: float, smear_deg: float
) -> None:
    evidence = angular_evidence(unrolled_about(smeared(angle_deg, smear_deg, 1, FAINT)), LOUDEST)
    assert evidence.shape == (len(WIDTHS_DEG), 360)
    own = int(np.argmin(np.abs(np.array(WIDTHS_DEG) - smear_deg)))
    assert abs(off_deg(int(evidence[own].argmax()), angle_deg)) <= 1.5 + smear_deg / 10


@pytest.mark.parametrize("loudness", [LOUD, -LOUD], ids=["brighter", "darker"])
@pytest.mark.parametrize("smear_deg", SMEARS_DEG)
@pytest.mark.parametrize("angle_deg", ANGLES_DEG)
def test_the_greatest_evidence_lies_within_the_smear(
    angle_deg: float, smear_deg: float, loudness: float
) -> None:
    evidence = angular_evidence(unrolled_about(smeared(angle_deg, smear_deg, 5, loudness)), LOUDEST)
    best = int(evidence.max(axis=0).argmax())
    assert abs(off_deg(best, angle_deg)) <= 1.5 + smear_deg / 2


@pytest.mark.parametrize("angle_deg", ANGLES_DEG)
@pytest.mark.parametrize(("smear_deg", "widths"), [(0.5, (2, 5)), (10, (10, 10)), (30, (30, 30))])
def test_a_faint_smear_is_seen_best_at_its_own_width(
    angle_deg: float, smear_deg: float, widths: tuple[int, int]
) -> None:
    evidence = angular_evidence(unrolled_about(smeared(angle_deg, smear_deg, 2, FAINT)), LOUDEST)
    assert widths[0] <= WIDTHS_DEG[int(evidence.max(axis=1).argmax())] <= widths[1]


def test_a_shaft_stands_out_of_noise_by_far() -> None:
    shaft = angular_evidence(unrolled_about(smeared(40.0, 2.0, seed=3)), LOUDEST)
    noise = angular_evidence(unrolled_about(smeared(40.0, 2.0, seed=3, loudness=0.0)), LOUDEST)
    assert shaft.max() > 4 * noise.max()


@pytest.mark.parametrize("angle_deg", [-1.0, 0.0, 1.0, 90.0])
def test_straight_down_is_seen_as_well_as_anywhere(angle_deg: float) -> None:
    evidence = angular_evidence(unrolled_about(smeared(angle_deg, 4.0, 4, FAINT)), LOUDEST).max(
        axis=0
    )
    assert abs(off_deg(int(evidence.argmax()), angle_deg)) <= 2
    elsewhere = angular_evidence(unrolled_about(smeared(200.0, 4.0, 4, FAINT)), LOUDEST).max()
    assert float(evidence.max()) == pytest.approx(float(elsewhere), rel=0.25)


def test_nothing_at_all_is_no_evidence() -> None:
    blank = np.zeros_like(unrolled_about(smeared(0.0, 1.0, seed=6)))
    assert np.abs(angular_evidence(blank, LOUDEST)).max() < 0.01
