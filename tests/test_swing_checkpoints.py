"""Checkpoints recovered between frames from a swing whose times are known."""

from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from baycue.club.reading import Evidence, ShaftReading
from baycue.pose.pose import Pose
from baycue.pose.sides import Stance
from baycue.swing.checkpoints import find_checkpoints
from baycue.swing.crossing import first_crossing_s
from baycue.swing.events import StrikeSeen
from baycue.swing.shaft_curve import shaft_curve
from baycue.swing.swing import Checkpoint, CheckpointName, Swing
from baycue.swing.swing_curves import swing_curves
from baycue.synthetic.two_link import Drive, Links, Start, constant_torque, swing_links
from tests.canned_readings import (
    LEFT_HANDER,
    RIGHT_HANDER,
    ns,
    rough_strike,
    seconds,
    shaft_readings,
    true_times_s,
)
from tests.canned_swing import canned_swing
from tests.stick_golfer import FloatArray, Pinhole, frame_times_s, jittered, mirrored, poses_of

SEEDS = 10
LOOK_AHEAD_S = 0.1
LANDMARK_SIGMA_PX, SHAFT_SIGMA_DEG, LEVEL_SIGMA_DEG = 1.5, 2.0, 2.0
"""The camera is level to two degrees or so: set up by eye (common practice, no source)."""
WIDTH_PX = Pinhole().width_px

Seen = tuple[StrikeSeen, tuple[Pose, ...], tuple[ShaftReading, ...]]


def seen_at(fps: float, seed: int, tilt: float = 1.0) -> Seen:
    """Noisy poses and readings, the whole picture tilted a little."""
    rng = np.random.default_rng(seed)
    times = frame_times_s(fps, -1.25, true_times_s()["impact"] + LOOK_AHEAD_S, rng.uniform())
    poses = jittered(poses_of(times, canned_swing()), LANDMARK_SIGMA_PX, rng)
    shaft = shaft_readings(times, canned_swing(), SHAFT_SIGMA_DEG, rng)
    tilt_deg = tilt * rng.normal(0, LEVEL_SIGMA_DEG)
    return rough_strike(fps), tilted_poses(poses, tilt_deg), tilted_shaft(shaft, tilt_deg)


def tilted_poses(poses: tuple[Pose, ...], tilt_deg: float) -> tuple[Pose, ...]:
    """The picture turned about its middle so that every angle grows by ``tilt_deg``."""
    cosine, sine = np.cos(np.radians(tilt_deg)), np.sin(np.radians(tilt_deg))
    middle, turn = np.array([640.0, 360.0]), np.array([[cosine, -sine], [sine, cosine]])
    return tuple(replace(p, pixels=(p.pixels - middle) @ turn + middle) for p in poses)


def tilted_shaft(shaft: tuple[ShaftReading, ...], tilt_deg: float) -> tuple[ShaftReading, ...]:
    return tuple(replace(r, angle_deg=r.angle_deg + tilt_deg) for r in shaft)


def found_in(
    seen: Seen, stance: Stance = RIGHT_HANDER, level_sigma_deg: float = 0.5
) -> tuple[Checkpoint, ...]:
    curves = swing_curves(*seen, stance, level_sigma_deg=level_sigma_deg)
    return find_checkpoints(curves)


def named(checkpoints: tuple[Checkpoint, ...], name: str) -> Checkpoint:
    found = Swing(1, checkpoints).at(CheckpointName(name))
    assert found is not None, name
    return found


@lru_cache(maxsize=8)
def errors_and_sigmas_s(fps: float, name: str) -> tuple[FloatArray, FloatArray]:
    found = [named(checkpoints, name) for checkpoints in _found_over_seeds(fps)]
    errors = [seconds(c.time_ns) - true_times_s()[name] for c in found]
    return np.array(errors), np.array([c.sigma_ns * 1e-9 for c in found])


@lru_cache(maxsize=3)
def _found_over_seeds(fps: float) -> list[tuple[Checkpoint, ...]]:
    seen = [seen_at(fps, seed) for seed in range(SEEDS)]
    return [found_in(one, level_sigma_deg=LEVEL_SIGMA_DEG) for one in seen]


RATES = [30, 60, 120]
PLUS_MINUS_S = np.array([-0.005, 0.005])
MOST_WRONG_MS = {"P2": 20, "P6": 6, "impact": 6, "P8": 6, "P3": 35, "P5": 18, "top": 80}
"""Stated tolerance: no seed is further off, at any frame rate.

P3 and P5 allow for where the pose model draws a turned shoulder, which the stick golfer has not.
"""


@pytest.mark.parametrize("fps", RATES)
@pytest.mark.parametrize("name", MOST_WRONG_MS)
def test_checkpoints_are_recovered_between_frames(fps: float, name: str) -> None:
    errors, _ = errors_and_sigmas_s(fps, name)
    assert np.abs(errors).max() * 1e3 < MOST_WRONG_MS[name]


@pytest.mark.parametrize("name", ["P6", "impact", "P8"])
def test_coming_down_thirty_frames_a_second_tell_times_to_a_tenth_of_a_frame(name: str) -> None:
    errors, _ = errors_and_sigmas_s(30, name)
    assert np.sqrt(np.mean(errors**2)) < 0.1 / 30


@pytest.mark.parametrize("fps", RATES)
def test_p8_is_told_neither_early_nor_late_whatever_the_frame_rate(fps: float) -> None:
    """A curve through pictures 1/30 s apart runs ahead of the club, which slows down there."""
    errors, _ = errors_and_sigmas_s(fps, "P8")
    assert abs(float(np.mean(errors))) < 1e-3


def test_a_smeared_club_has_come_further_after_the_ball_than_it_is_read() -> None:
    """By 0.22 of what its smear is over ten degrees; no other checkpoint is any sooner for it."""
    strike, poses, shaft = seen_at(60, 0)
    clear, slight, smeared = (
        found_in((strike, poses, tuple(replace(r, sweep_deg=sweep) for r in shaft)))
        for sweep in (0.0, 10.0, 30.0)
    )
    turns_deg_s = float(np.diff(canned_swing().shaft_deg(true_times_s()["P8"] + PLUS_MINUS_S))[0])
    sooner_s = (named(clear, "P8").time_ns - named(smeared, "P8").time_ns) * 1e-9
    assert sooner_s == pytest.approx(0.22 * 20.0 / (turns_deg_s / 0.01), rel=0.1)
    assert named(slight, "P8").time_ns == named(clear, "P8").time_ns
    for one, other in zip(clear, smeared, strict=True):
        assert other.name is CheckpointName.P8 or other.time_ns == one.time_ns


def test_a_smeared_club_tells_impact_less_surely_by_an_eighth_of_its_smear() -> None:
    strike, poses, shaft = seen_at(60, 0)
    clear, smeared = (
        swing_curves(strike, poses, tuple(replace(r, sweep_deg=s) for r in shaft), RIGHT_HANDER)
        for s in (0.0, 30.0)
    )
    assert smeared.shaft is not None
    sure, unsure = (named(find_checkpoints(c), "impact") for c in (clear, smeared))
    more_s = np.sqrt(float(unsure.sigma_ns) ** 2 - float(sure.sigma_ns) ** 2) * 1e-9
    rate_deg_s = smeared.shaft.rate_at(unsure.time_ns * 1e-9)
    assert more_s * rate_deg_s == pytest.approx(0.125 * 30.0, rel=0.01)


@pytest.mark.parametrize("gained_deg_s2", [-60_000.0, 60_000.0])
def test_a_club_that_seems_to_gain_or_lose_speed_oddly_tells_impact_less_surely(
    gained_deg_s2: float,
) -> None:
    curves = swing_curves(*seen_at(60, 0), RIGHT_HANDER)
    assert curves.shaft is not None
    before = named(find_checkpoints(curves), "impact")
    since_s = curves.shaft.times_s - before.time_ns * 1e-9
    odd = replace(curves.shaft, rates=curves.shaft.rates + gained_deg_s2 * since_s)
    after = named(find_checkpoints(replace(curves, shaft=odd)), "impact")
    assert after.sigma_ns > 2 * before.sigma_ns


def test_p8_is_told_less_surely_the_more_pictures_in_a_row_do_not_show_the_shaft() -> None:
    strike, poses, shaft = seen_at(120, 0)
    p8_s = true_times_s()["P8"]
    sigmas_ns = []
    for within_s in (0.0, 0.006, 0.014):
        seen = tuple(
            replace(r, evidence=Evidence.PATH) if abs(seconds(r.stamp_ns) - p8_s) < within_s else r
            for r in shaft
        )
        sigmas_ns.append(named(found_in((strike, poses, seen)), "P8").sigma_ns)
    assert sigmas_ns[1] > 2 * sigmas_ns[0]
    assert sigmas_ns[2] > 1.5 * sigmas_ns[1]


@pytest.mark.parametrize("fps", RATES)
@pytest.mark.parametrize("name", ["P2", "P6", "impact", "P8"])
def test_sigma_is_about_what_the_time_is_wrong_by(fps: float, name: str) -> None:
    """A z score of order one: neither boastful nor so shy that nothing could be called.

    Impact's spread allows for releases that bend the club's path, which this swing has not.
    """
    errors, sigmas = errors_and_sigmas_s(fps, name)
    z = float(np.sqrt(np.mean((errors / sigmas) ** 2)))
    assert (0.3 if name == "impact" else 0.5) < z < 1.6


@pytest.mark.parametrize("fps", RATES)
def test_the_tops_sigma_is_of_the_size_of_its_error(fps: float) -> None:
    """The turn is flat going back and sharp coming down, so the error is lopsided: z up to 3."""
    errors, sigmas = errors_and_sigmas_s(fps, "top")
    assert 0.2 < float(np.sqrt(np.mean((errors / sigmas) ** 2))) < 3.0


def test_company_widens_every_spread() -> None:
    strike, poses, shaft = seen_at(60, 0)
    alone = find_checkpoints(swing_curves(strike, poses, shaft, RIGHT_HANDER))
    company = find_checkpoints(swing_curves(strike, poses, shaft, RIGHT_HANDER, in_company=True))
    for one, other in zip(alone, company, strict=True):
        assert (other.name, other.time_ns) == (one.name, one.time_ns)
        times = {CheckpointName.P3: 1.3, CheckpointName.P8: 1.5}.get(one.name, 1.1)
        assert other.sigma_ns == pytest.approx(times * one.sigma_ns, abs=1)


def test_an_arm_seen_now_here_now_there_tells_p5_less_surely() -> None:
    """The lead wrist jumps by a thirtieth of the width of the picture in every other pose."""
    strike, poses, shaft = seen_at(60, 0)
    wrist = 0.03 * WIDTH_PX * np.eye(33)[[RIGHT_HANDER.lead.wrist]].T
    jumping = tuple(replace(p, pixels=p.pixels + k % 2 * wrist) for k, p in enumerate(poses))
    sure, unsure = (named(found_in((strike, seen, shaft)), "P5") for seen in (poses, jumping))
    assert unsure.sigma_ns > 2 * sure.sigma_ns


def test_a_shaft_that_turns_far_from_where_the_hands_do_was_followed_wrongly() -> None:
    strike, poses, shaft = seen_at(60, 0)
    curves = swing_curves(strike, poses, shaft, RIGHT_HANDER)
    assert curves.shaft is not None
    earlier_s = curves.shaft.times_s - 0.3
    astray = replace(
        curves, shaft=replace(curves.shaft, times_s=earlier_s), top_s=curves.top_s - 0.2
    )
    top = named(find_checkpoints(astray), "top")
    assert top.time_ns == round(curves.hands_top_s * 1e9)
    assert top.sigma_ns >= 40_000_000


@pytest.mark.parametrize("pause_s", [0.1, 0.2])
def test_a_pause_at_the_top_is_as_unsure_as_it_is_long(pause_s: float) -> None:
    """The shaft creeps back by a degree during the pause, whose end is then the top."""
    canned, rng = canned_swing(), np.random.default_rng(5)
    times = frame_times_s(60, -1.25, 0.42)

    def paused_deg(time_s: float) -> float:
        if time_s >= 0:
            return float(canned.shaft_deg(time_s))
        if time_s >= -pause_s:
            return float(canned.shaft_deg(0.0)) - time_s / pause_s
        return float(canned.shaft_deg(time_s + pause_s)) + 1.0

    readings = shaft_readings(times, canned, 0.3, rng)
    stretched = tuple(
        replace(r, angle_deg=paused_deg(float(t)) + rng.normal(0, 0.3))
        for r, t in zip(readings, times, strict=True)
    )
    top = named(found_in((rough_strike(60), poses_of(times, canned), stretched)), "top")
    assert abs(seconds(top.time_ns)) < 0.4 * pause_s
    assert abs(top.time_ns - ns(0.0)) < 2.5 * top.sigma_ns
    assert named(found_in(seen_at(60, 5)), "top").sigma_ns < 0.7 * top.sigma_ns


def test_without_noise_the_checkpoints_are_all_there_in_order() -> None:
    times = frame_times_s(120, -1.25, 0.42)
    poses = poses_of(times, canned_swing())
    shaft = shaft_readings(times, canned_swing(), 0.01, np.random.default_rng(0))
    found = found_in((rough_strike(120), poses, shaft))
    assert [c.name.value for c in found] == [
        *("address", "takeaway", "P2", "P3", "top", "P5", "P6", "impact", "P8"),
    ]
    for name, least_ms in {"P2": 1, "P3": 25, "P5": 13, "P6": 1, "impact": 2.5, "P8": 1}.items():
        off_ms = (seconds(named(found, name).time_ns) - true_times_s()[name]) * 1e3
        assert abs(off_ms) < least_ms, name


@pytest.mark.parametrize("fps", [30, 60, 120, 240])
def test_the_textbook_downswing_is_timed_and_clocked(fps: int) -> None:
    """Horizontal at 291.78 ms, turning 1651 deg/s, vertical at 340.78 ms (at 100 N m).

    The two-link model's parameters are as in a student's README that cites Cochran & Stobbs
    1968, Jorgensen 1994 and Penner 2003 (secondary); the times were computed from them.
    """
    links = swing_links(Links(), Start(), Drive(constant_torque(100.0)), 120.0)
    rng = np.random.default_rng(fps)
    times = np.arange(-0.3 + rng.uniform() / fps, links.end_s, 1 / fps)
    angles = [np.degrees(links.state_at(float(t))[1]) for t in times]
    shaft = tuple(
        ShaftReading(k, ns(float(t)), float(a + rng.normal(0, 1.0)), 1.0, 0.0, Evidence.PICTURE)
        for k, (t, a) in enumerate(zip(times, angles, strict=True))
    )
    curve = shaft_curve(shaft)
    assert curve is not None
    ever = (-np.inf, np.inf)
    p6 = first_crossing_s(curve, np.full_like(curve.values, -90.0), ever, rising=True)
    upright = first_crossing_s(curve, np.zeros_like(curve.values), ever, rising=True)
    assert p6 is not None
    assert upright is not None
    assert p6 - 10.0 == pytest.approx(0.29178, abs=0.003)
    assert upright - 10.0 == pytest.approx(0.34078, abs=0.003)
    assert curve.rate_at(p6) == pytest.approx(1651, rel=0.05)


def test_one_wild_reading_does_not_move_a_checkpoint() -> None:
    strike, poses, shaft = seen_at(60, 3)
    near_p6 = int(np.argmin([abs(seconds(r.stamp_ns) - true_times_s()["P6"]) for r in shaft]))
    wild = list(shaft)
    wild[near_p6] = replace(wild[near_p6], angle_deg=wild[near_p6].angle_deg + 70)
    before = named(found_in((strike, poses, shaft)), "P6")
    after = named(found_in((strike, poses, tuple(wild))), "P6")
    assert abs(after.time_ns - before.time_ns) < 3e6


def test_readings_that_saw_little_are_believed_little() -> None:
    strike, poses, shaft = seen_at(60, 5)
    vague = tuple(replace(r, sigma_deg=15.0) for r in shaft)
    sure, unsure = (named(found_in((strike, poses, s)), "P6") for s in (shaft, vague))
    assert unsure.sigma_ns > 1.5 * sure.sigma_ns


@pytest.mark.parametrize("fps", RATES)
def test_a_hidden_club_leaves_the_arms_and_a_wide_spread(fps: float) -> None:
    strike, poses, shaft = seen_at(fps, 2)
    unseen = tuple(replace(r, evidence=Evidence.PATH) for r in shaft)
    seen = found_in((strike, poses, shaft))
    for hidden in ((), unseen):
        found = found_in((strike, poses, hidden))
        names = {c.name.value for c in found}
        assert {"address", "takeaway", "P3", "top", "P5", "P6", "impact"} == names
        for name in ("P6", "impact"):
            guess, known = named(found, name), named(seen, name)
            assert guess.sigma_ns > 3 * known.sigma_ns
            assert abs(guess.time_ns - known.time_ns) < 3 * guess.sigma_ns


def test_what_a_short_look_did_not_show_is_left_out() -> None:
    strike, poses, shaft = seen_at(60, 4)
    until = ns(true_times_s()["P6"] - 0.02)
    early = (
        tuple(p for p in poses if p.stamp_ns < until),
        tuple(r for r in shaft if r.stamp_ns < until),
    )
    names = {c.name.value for c in found_in((strike, *early))}
    assert "P2" in names
    assert not {"P6", "P8"} & names


@settings(max_examples=7, deadline=None)
@given(st.integers(0, 10_000), st.sampled_from(RATES))
def test_checkpoints_are_in_order_and_named_once(seed: int, fps: int) -> None:
    found = found_in(seen_at(fps, seed))
    assert [c.time_ns for c in found] == sorted(c.time_ns for c in found)
    assert len({c.name for c in found}) == len(found)
    assert all(c.sigma_ns > 0 for c in found)


@settings(max_examples=7, deadline=None, phases=[Phase.generate])
@given(st.integers(0, 10_000))
def test_mirroring_picture_and_stance_changes_no_checkpoint(seed: int) -> None:
    strike, poses, shaft = seen_at(30, seed)
    there = found_in((strike, mirrored(poses, WIDTH_PX), shaft), LEFT_HANDER)
    here = found_in((strike, poses, shaft), RIGHT_HANDER)
    assert [c.name for c in there] == [c.name for c in here]
    for a, b in zip(here, there, strict=True):
        assert abs(a.time_ns - b.time_ns) <= 1000
        assert abs(a.sigma_ns - b.sigma_ns) <= 1000


@settings(max_examples=7, deadline=None)
@given(st.integers(0, 2**36))
def test_a_later_clock_moves_all_checkpoints_by_as_much(later_ns: int) -> None:
    strike, poses, shaft = seen_at(30, 1)
    times = (strike.address_ns, strike.takeaway_ns, strike.top_ns, strike.return_ns)
    later = found_in(
        (
            StrikeSeen(*(t + later_ns for t in times)),
            tuple(replace(p, stamp_ns=p.stamp_ns + later_ns) for p in poses),
            tuple(replace(r, stamp_ns=r.stamp_ns + later_ns) for r in shaft),
        )
    )
    for a, b in zip(found_in((strike, poses, shaft)), later, strict=True):
        # The curves are read on a grid that starts at the first frame.
        assert b.time_ns - a.time_ns == pytest.approx(later_ns, abs=200_000)
