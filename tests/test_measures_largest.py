"""The largest of many noisy values, against drawing them with numpy."""

import numpy as np
import pytest

from baycue.measures.largest import largest_of

TIMES_S = np.arange(0, 1.0, 0.02)
NOISE, MEMORY_S = 0.01, 0.02
NO_NOISE = np.zeros(len(TIMES_S))


def drawn(truth: np.ndarray, count: int = 300) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """What ``largest_of`` finds in noisy copies of a course, its sigmas, and the plain largest."""
    rng = np.random.default_rng(3)
    noisy = truth + rng.normal(0, NOISE, (count, len(truth)))
    sigmas = np.full(len(truth), NOISE)
    found = [largest_of(TIMES_S, values, sigmas, MEMORY_S) for values in noisy]
    return (
        np.array([f.value for f in found]),
        np.array([f.sigma for f in found]),
        noisy.max(axis=1),
    )


def test_without_noise_it_is_the_largest() -> None:
    values = np.sin(3 * TIMES_S)
    found = largest_of(TIMES_S, values, NO_NOISE, MEMORY_S)
    assert found.value == pytest.approx(values.max())
    assert found.sigma == pytest.approx(0.0, abs=1e-9)
    assert found.index == values.argmax()


def test_the_largest_of_two_alike_is_larger_by_what_the_textbook_says() -> None:
    """E[max] of two standard normals is 1/sqrt(pi), its variance 1 - 1/pi (Clark 1961; memory)."""
    found = largest_of(np.array([0.0, 1.0]), np.zeros(2), np.ones(2), 0.1)
    assert -found.value == pytest.approx(1 / np.sqrt(np.pi), abs=0.005)
    spread = np.sqrt(1 - 1 / np.pi)
    assert found.sigma == pytest.approx(np.hypot(spread, 1 / np.sqrt(np.pi)), abs=0.005)


@pytest.mark.parametrize("sharp", [0.0, 0.2, 2.0])
def test_the_bias_is_more_than_halved_and_the_sigma_covers_the_rest(sharp: float) -> None:
    """Wanted within one and two sigmas are 68 and 95 in 100; invented noise of 10 mm."""
    truth = -sharp * (TIMES_S - 0.5) ** 2
    values, sigmas, raw = drawn(truth)
    assert abs(values.mean()) < 0.5 * raw.mean()
    assert (np.abs(values) <= sigmas).mean() > 0.65
    assert (np.abs(values) <= 2 * sigmas).mean() > 0.92


def test_values_that_share_their_noise_are_not_many() -> None:
    flat, sigmas = np.zeros(len(TIMES_S)), np.full(len(TIMES_S), NOISE)
    apart = largest_of(TIMES_S, flat, sigmas, MEMORY_S)
    together = largest_of(TIMES_S, flat, sigmas, 5.0)
    assert together.value == pytest.approx(0.0, abs=1e-4)
    assert together.sigma == pytest.approx(NOISE, rel=0.01)
    assert apart.value < -NOISE
