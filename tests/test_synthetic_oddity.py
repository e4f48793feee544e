"""Swings of other makes: still golf swings, and still exactly known."""

from functools import cache

import numpy as np
import pytest

from baycue.synthetic.body import load_body
from baycue.synthetic.grip import holding_hand
from baycue.synthetic.oddity import NO_ODDITY, ODD_KINDS, Oddity, OddKind
from baycue.synthetic.pace import Knot, Pace
from baycue.synthetic.scene import FloatArray
from baycue.synthetic.skeleton import head_centre
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.swing_style import SwingStyle
from baycue.synthetic.truth import TrueSwing, true_swing

TWO_WAYS = (OddKind.OFF_PLANE, OddKind.UNEVEN_TEMPO, OddKind.ODD_HAND_PATH)
ODD = (*(Oddity(kind, 1.0) for kind in ODD_KINDS), *(Oddity(kind, -1.0) for kind in TWO_WAYS))
PAUSE, RUSH = Oddity(OddKind.UNEVEN_TEMPO, 1.0), Oddity(OddKind.UNEVEN_TEMPO, -1.0)
STEP_S = 1e-4

each = pytest.mark.parametrize("oddity", ODD, ids=lambda o: f"{o.kind.value} {o.amount:+g}")


@cache
def swing(oddity: Oddity = NO_ODDITY) -> SwingMotion:
    return SwingMotion(load_body("adult_male", 1.78), SwingStyle(oddity=oddity))


@cache
def true(oddity: Oddity = NO_ODDITY) -> TrueSwing:
    return true_swing(swing(oddity))


def moving(motion: SwingMotion, time_s: float) -> FloatArray:
    """(5, 3) wrists, elbows and club head."""
    skeleton, club = motion.golfer_at(time_s)
    bones = ("hand_l", "hand_r", "lowerarm_l", "lowerarm_r")
    return np.array([*(skeleton.head_of(bone) for bone in bones), club.head_m])


def times(motion: SwingMotion, step_s: float) -> FloatArray:
    phases = motion.phases
    return np.arange(phases.start_s, phases.p8_s + 0.1, step_s)


@each
def test_checkpoints_come_in_order_and_the_shaft_is_parallel_there(oddity: Oddity) -> None:
    swung = true(oddity)
    at_s = list(swung.checkpoints_s.values())
    assert at_s == sorted(at_s)
    for name, shaft_deg in {"P2": -90.0, "P6": -90.0, "P8": 90.0}.items():
        assert swung.shaft_deg[name] == pytest.approx(shaft_deg, abs=1e-3)
    for name in ("P3", "P5"):
        assert swung.lead_arm_deg[name] == pytest.approx(-90.0, abs=1e-3)


@each
def test_there_is_one_of_each_checkpoint(oddity: Oddity) -> None:
    """Else the truth would depend on which of several a search came upon."""
    motion = swing(oddity)
    until_p8 = times(motion, 0.005)[: -int(0.07 / 0.005)]
    golfers = [motion.golfer_at(float(t)) for t in until_p8]
    shaft = [np.sign(club.head_m[1] - club.butt_m[1]) for _, club in golfers]
    arm = [np.sign(s.head_of("hand_l")[1] - s.head_of("upperarm_l")[1]) for s, _ in golfers]
    assert np.count_nonzero(np.diff(shaft)) == 3, "P2, P6, P8"
    down = [a for t, a in zip(until_p8, arm, strict=True) if t < motion.phases.impact_s]
    assert np.count_nonzero(np.diff(down)) == 2, "P3, P5"


@each
def test_the_club_head_meets_the_ball_at_impact(oddity: Oddity) -> None:
    motion = swing(oddity)
    club = motion.golfer_at(true(oddity).checkpoints_s["impact"])[1]
    ball_m = motion.ball_at(0.0)
    assert ball_m is not None
    gap_m = motion.style.club_held.half_head_m + 0.0214
    np.testing.assert_allclose(ball_m - club.head_m, [gap_m, 0.0, 0.0], atol=1e-5)
    assert club.face_normal[0] > 0.98


@each
def test_nothing_jumps(oddity: Oddity) -> None:
    """Neither a place nor a speed, at any phase's start or half-way to the next."""
    motion = swing(oddity)
    phases = motion.phases
    starts = [phases.start_s, phases.top_s, phases.p6_s, phases.impact_s, phases.p8_s]
    between = [phases.back(0.45), phases.down(0.3), phases.down(0.6)]
    for at_s in (*starts, *between, phases.top_s - 0.1, phases.top_s + 0.08):
        before, here, after = (moving(motion, at_s + k * STEP_S) for k in (-1, 0, 1))
        change = np.linalg.norm((after - here) - (here - before), axis=1) / STEP_S
        assert change.max() < 0.6, "m/s, in a tenth of a millisecond"


@each
def test_no_limb_breaks(oddity: Oddity) -> None:
    motion = swing(oddity)
    golfers = [motion.golfer_at(float(t)) for t in times(motion, 0.01)]
    along = np.linspace(0, 1, 20)[:, None]
    for skeleton, club in golfers:
        for side in "lr":
            wrist_m = holding_hand(motion.rig, club, side, np.ones(3)).wrist_m
            assert np.linalg.norm(skeleton.head_of(f"hand_{side}") - wrist_m) < 0.006
        shaft = club.butt_m + along * (club.head_m - club.butt_m)
        assert np.linalg.norm(shaft - head_centre(skeleton), axis=1).min() > 0.15
        assert club.head_m[1] > 0.015


def test_a_pause_makes_the_backswing_longer_and_a_rush_changes_no_total() -> None:
    plain, paused, rushed = (true(o).checkpoints_s for o in (NO_ODDITY, PAUSE, RUSH))
    assert paused["impact"] - plain["impact"] == pytest.approx(0.30, abs=1e-6)
    assert rushed["impact"] == pytest.approx(plain["impact"], abs=1e-6)
    assert rushed["P5"] < plain["P5"] - 0.010


def test_a_late_wrist_opens_later_and_a_cast_earlier() -> None:
    arms = [
        true(Oddity(kind, 1.0)).lead_arm_deg["P6"]
        for kind in (OddKind.CAST, OddKind.DRIVEN_WRIST, OddKind.LATE_WRIST)
    ]
    assert arms[0] < arms[1] < true().lead_arm_deg["P6"] < arms[2]


def test_off_plane_the_shaft_does_not_turn_about_one_axis() -> None:
    """Share of the shaft's directions, top to impact, that lies out of their own best plane."""

    def out_of_plane(oddity: Oddity) -> float:
        motion = swing(oddity)
        phases = motion.phases
        ways = []
        for t in np.linspace(phases.top_s, phases.impact_s, 25):
            club = motion.golfer_at(float(t))[1]
            ways.append((club.head_m - club.butt_m) / motion.style.club_held.length_m)
        return float(np.linalg.svd(np.array(ways), compute_uv=False)[2])

    for amount in (-1.0, 1.0):
        assert out_of_plane(Oddity(OddKind.OFF_PLANE, amount)) > 3 * out_of_plane(NO_ODDITY)


def test_an_odd_hand_path_changes_the_arm_s_radius() -> None:
    def radius_m(oddity: Oddity, share: float) -> float:
        motion = swing(oddity)
        skeleton, _ = motion.golfer_at(motion.phases.down(share))
        return float(np.linalg.norm(skeleton.head_of("hand_l") - skeleton.head_of("upperarm_l")))

    pulled, thrown = (Oddity(OddKind.ODD_HAND_PATH, way) for way in (1.0, -1.0))
    assert radius_m(pulled, 0.6) < radius_m(NO_ODDITY, 0.6) - 0.05
    assert radius_m(thrown, 0.0) < radius_m(NO_ODDITY, 0.0) - 0.05
    for oddity in (pulled, thrown):
        assert radius_m(oddity, 1.0) == pytest.approx(radius_m(NO_ODDITY, 1.0), abs=1e-9)


def test_the_clocks_are_each_other_s_inverse() -> None:
    pace = Pace((Knot(1.0, 1.0), Knot(1.4, 1.2, 0.3), Knot(1.9, 1.5)))
    for real_s in (0.2, 1.0, 1.1, 1.5, 1.89, 1.9, 3.0):
        assert pace.real_s(pace.even_s(real_s)) == pytest.approx(real_s, abs=1e-9)
    assert pace.even_s(3.0) == pytest.approx(2.6)
    assert Pace().even_s(0.7) == 0.7


def test_a_clock_that_runs_back_is_refused() -> None:
    with pytest.raises(ValueError, match="run back"):
        Pace((Knot(0.0, 0.0), Knot(0.5, 0.1, 2.0), Knot(1.0, 0.2)))


@pytest.mark.parametrize(
    ("kind", "amount"), [(OddKind.CAST, 0.0), (OddKind.NONE, 0.5), (OddKind.CAST, 1.5)]
)
def test_an_oddity_that_makes_no_sense_is_refused(kind: OddKind, amount: float) -> None:
    with pytest.raises(ValueError, match=str(amount)):
        Oddity(kind, amount)
