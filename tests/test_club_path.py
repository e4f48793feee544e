"""The likeliest turning of the shaft through evidence over all frames."""

from functools import lru_cache

import numpy as np
import pytest
from numpy.typing import NDArray

from baycue.club.evidence import WIDTHS_DEG
from baycue.club.path import PathSearch, ShaftPath, path_to
from baycue.club.path_prices import ANGLES_DEG, rate_change_prices, rate_grid_deg
from baycue.synthetic.two_link import (
    Drive,
    Links,
    Start,
    constant_torque,
    swing_links,
    time_of_club,
)
from tests.canned_swing import canned_swing
from tests.stick_golfer import FloatArray, frame_times_s

RATES = [30, 60, 120, 240]


def rate_at_p6_deg_s() -> float:
    """Of the textbook two-link swing at 100 N m, its shaft parallel to the ground."""
    swing = swing_links(Links(), Start(), Drive(constant_torque(100.0)), 10.0)
    return float(np.degrees(swing.state_at(time_of_club(swing, -90.0))[3]))


@pytest.mark.parametrize(("fps", "turned_deg"), [(30, 55.0), (60, 27.5), (120, 13.8), (240, 6.9)])
def test_the_rates_searched_reach_a_club_at_full_speed(fps: int, turned_deg: float) -> None:
    """1651 deg/s is 55, 27.5, 13.8 and 6.9 degrees a frame at 30, 60, 120 and 240 fps.

    Computed from the two-link parameters quoted in a student's README that cites Cochran &
    Stobbs 1968, Jorgensen 1994 and Penner 2003 (secondary).
    """
    assert rate_at_p6_deg_s() == pytest.approx(1651, abs=1)
    assert rate_at_p6_deg_s() / fps == pytest.approx(turned_deg, abs=0.1)
    rates = rate_grid_deg(1 / fps)
    assert rates.min() < -0.4 * turned_deg
    assert rates.max() > 1.3 * turned_deg
    assert 0.0 in rates
    assert np.all(rates == np.round(rates))
    assert np.abs(rates - turned_deg).min() <= np.diff(rates).max() / 2


def evidence_for(angles_deg: FloatArray, rates_deg: FloatArray) -> NDArray[np.float64]:
    """A peak at each frame's angle, at the width it would smear to with the shutter half open."""
    rng = np.random.default_rng(0)
    evidence = rng.normal(0, 0.3, (len(angles_deg), len(WIDTHS_DEG), 360))
    around = np.arange(360)
    for k, (angle, rate) in enumerate(zip(angles_deg, rates_deg, strict=True)):
        width = int(np.argmin(np.abs(np.array(WIDTHS_DEG) - max(abs(rate) / 2, 2))))
        off = (around - angle + 180) % 360 - 180
        evidence[k, width] += 6 * np.exp(-0.5 * (off / (2 + WIDTHS_DEG[width] / 4)) ** 2)
    return evidence


def found_in(
    evidence: FloatArray, arm_deg: FloatArray, turning: NDArray[np.int8], frame_s: float
) -> ShaftPath:
    """The search taken frame by frame through evidence (N, len(WIDTHS_DEG), 360)."""
    search, reached = PathSearch(frame_s), None
    for seen, arm, turns in zip(evidence, arm_deg, turning, strict=True):
        reached = search.extended(reached, seen, float(arm), int(turns))
    assert reached is not None
    return path_to(reached)


@lru_cache(maxsize=8)
def path_through(fps: float, blind: tuple[int, int] = (0, 0)) -> tuple[ShaftPath, FloatArray]:
    """The path found and the truth; from and to the ``blind`` frames nothing was seen."""
    swing, times = canned_swing(), frame_times_s(fps, -1.2, 0.38)
    true = swing.shaft_deg(times)
    evidence = evidence_for(true, swing.shaft_rate_deg_s(times) / fps)
    evidence[slice(*blind)] = 0.0
    turning = (np.sign(times) * (np.abs(times) > 0.12)).astype(np.int8)
    return found_in(evidence, swing.arm_deg(times), turning, 1 / fps), true


@pytest.mark.parametrize("fps", RATES)
def test_the_shaft_is_followed_through_the_whole_swing(fps: float) -> None:
    path, true = path_through(fps)
    assert len(path.angle_deg) == len(true)
    assert np.abs(path.angle_deg - true).max() < 6
    assert true.min() < -200 < 80 < true.max()


@pytest.mark.parametrize("fps", [60, 120])
def test_a_stretch_without_evidence_is_bridged(fps: int) -> None:
    _, true = path_through(fps)
    at = int(np.argmin(np.abs(true + 150)))
    path, _ = path_through(fps, (at - fps // 20, at + fps // 20))
    assert np.abs(path.angle_deg - true).max() < 25


def test_evidence_that_agrees_scores_higher_than_noise() -> None:
    path, true = path_through(60)
    noise, _ = path_through(60, (0, len(true)))
    assert path.score > noise.score + 3 * len(true)


def late_release_deg(times_s: FloatArray) -> FloatArray:
    """Up to 0 s 1,500 deg/s, then within 40 ms up to 3,300, and no slower after (invented)."""
    gathered = np.clip(times_s, 0.0, 0.04)
    return -110.0 + 1500 * times_s + 1800 * (gathered**2 / 0.08 + np.maximum(times_s - 0.04, 0.0))


@pytest.mark.parametrize("fps", RATES)
def test_a_late_violent_release_is_followed(fps: int) -> None:
    """The club keeps its lag, then doubles its speed on the last quarter turn to the ball."""
    times = frame_times_s(fps, -0.08, 0.07)
    down = late_release_deg(times)
    back = np.concatenate([np.linspace(-20, down[0], fps // 3), np.full(fps // 10, down[0])])
    true = np.concatenate([back, down])
    turning = np.concatenate([np.zeros(len(back)), np.ones(len(down))]).astype(np.int8)
    rates = np.gradient(true)
    path = found_in(evidence_for(true, rates), np.clip(true, -100.0, 30.0), turning, 1 / fps)
    assert rates.max() * fps > 3000
    assert np.abs(path.angle_deg - true)[-len(down) :].max() < 8


def test_a_fast_club_is_followed_past_level_on_the_far_side() -> None:
    """At 30 frames a second 100 degrees a frame: the last picture looked at shows it at 195."""
    down = np.array([-210.0, -180.0, -139.0, -89.0, -6.0, 98.0, 195.0])
    true = np.concatenate([np.linspace(-20.0, -215.0, 20), down])
    turning = np.repeat([-1, 1], [20, len(down)]).astype(np.int8)
    arm_deg = np.concatenate([np.linspace(0, -110, 20), [-86.0, -66, -42, -12, -1, 11, 48]])
    path = found_in(evidence_for(true, np.gradient(true)), arm_deg, turning, 1 / 30)
    assert np.abs(path.angle_deg - true)[-len(down) :].max() < 8


@pytest.mark.parametrize("fps", RATES)
def test_speed_is_gathered_freely_in_the_release_alone(fps: int) -> None:
    rates = rate_grid_deg(1 / fps)
    back, down = (rate_change_prices(rates, turning, 1 / fps) for turning in (-1, 1))
    of_way = {deg: int(np.flatnonzero(deg == ANGLES_DEG)[0]) for deg in (-200, -90, 20)}
    gathered = {deg: down[len(down) // 2 - 1, at] for deg, at in of_way.items()}
    assert gathered[-90] < gathered[-200] == gathered[20]
    assert down[len(down) // 2 + 1] == pytest.approx(gathered[20])
    assert back[len(back) // 2 - 1] == pytest.approx(gathered[20])


def best_by_trying_all(scores: FloatArray, prices: FloatArray) -> FloatArray:
    """For each rate and angle the best of all earlier rates within reach, one by one."""
    span = len(prices) // 2
    best = np.full_like(scores, -np.inf)
    for after in range(len(scores)):
        for before in range(max(after - span, 0), min(after + span + 1, len(scores))):
            option = scores[before] - prices[before - after + span]
            best[after] = np.maximum(best[after], option)
    return best


@pytest.mark.parametrize("turning", [0, 1])
@pytest.mark.parametrize("fps", [30, 60])
def test_each_step_comes_from_the_best_of_all_that_could_come_before(
    fps: int, turning: int
) -> None:
    search = PathSearch(1 / fps)
    rng, nothing = np.random.default_rng(4), np.zeros((len(WIDTHS_DEG), 360))
    first = search.extended(None, rng.normal(0, 3, nothing.shape), -90.0, turning)
    second = search.extended(first, nothing, -90.0, turning)
    prices = rate_change_prices(first.rates_deg, turning, 1 / fps)
    most = len(prices) // 2
    expected = best_by_trying_all(first.score, prices)
    own = search.extended(first, nothing, -90.0, turning).score
    assert np.array_equal(own, second.score)
    for k, rate in enumerate(first.rates_deg.astype(int)):
        came = np.roll(expected[k], rate)
        reached = slice(max(rate, 0), len(came) + min(rate, 0))
        wrist = second.score[k, reached] - came[reached]
        assert wrist.max() <= 1e-9, "a price is all that a step without evidence can add"
        angles = np.arange(len(came))[reached]
        places = [second.came_from(k, int(a)) or (0, 0) for a in angles]
        earlier = np.array([r for r, _ in places])
        assert [a for _, a in places] == list(angles - rate)
        picked = first.score[earlier, angles - rate]
        changes = earlier - k + most
        assert picked - prices[changes, angles - rate] == pytest.approx(came[reached])


@pytest.mark.parametrize("frame_s", [0.2, 0.4, 1.0])
def test_frames_so_far_apart_that_the_club_may_turn_right_round_are_searched_too(
    frame_s: float,
) -> None:
    """As when a camera stalls in the middle of a swing."""
    evidence = np.zeros((4, len(WIDTHS_DEG), 360))
    found = found_in(evidence, np.zeros(4), np.zeros(4, np.int8), frame_s)
    assert len(found.angle_deg) == 4
