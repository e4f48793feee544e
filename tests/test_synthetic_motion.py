"""The synthetic swing: what a body and a club can and cannot do."""

import pickle
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import pytest

from baycue.synthetic.body import load_body
from baycue.synthetic.club_physics import CLUBS
from baycue.synthetic.grip import holding_hand
from baycue.synthetic.idle_motion import regroup, tee_a_ball
from baycue.synthetic.motion import Motion, OneAfterAnother, practice_stop, rehearsal, waggles
from baycue.synthetic.scene import ClubPose, FloatArray
from baycue.synthetic.skeleton import Skeleton, head_centre
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.swing_style import SwingStyle
from baycue.synthetic.truth import knee_past_ankle_m
from baycue.synthetic.walk import Walk

STYLES = {
    "iron": ("adult_male", 1.78, SwingStyle()),
    "driver rising": (
        "adult_male",
        1.85,
        SwingStyle(
            club="driver",
            release="late",
            knee_past_ankle_at_p6_m=0.10,
            head_rise_at_impact_m=0.07,
        ),
    ),
    "wedge dropping": (
        "older_heavy_male",
        1.75,
        SwingStyle(
            club="wedge",
            release="early",
            knee_past_ankle_at_p6_m=-0.08,
            head_rise_at_impact_m=-0.03,
        ),
    ),
    "waggling": ("adult_female", 1.66, SwingStyle(waggles=2, hands_out_m=0.04)),
}


@pytest.fixture(scope="module", params=STYLES)
def swing(request: pytest.FixtureRequest) -> SwingMotion:
    body, stature_m, style = STYLES[request.param]
    return SwingMotion(load_body(body, stature_m), style)


@dataclass(frozen=True, slots=True)
class Sampled:
    """A swing every 10 ms."""

    golfers: list[tuple[Skeleton, ClubPose]]
    joints_m: FloatArray


@pytest.fixture(scope="module")
def sampled(swing: SwingMotion) -> Sampled:
    golfers = [swing.golfer_at(float(t)) for t in times_of(swing)]
    return Sampled(golfers, np.array([skeleton.heads_m for skeleton, _ in golfers]))


def times_of(motion: Motion, step_s: float = 0.01) -> FloatArray:
    return np.arange(0.0, motion.duration_s, step_s)


def joints_m(motion: Motion, time_s: float) -> FloatArray:
    bones = motion.moment_at(time_s).bones
    assert bones is not None
    return bones[:, :3, 3]


def head_height_m(swing: SwingMotion, time_s: float) -> float:
    return float(head_centre(swing.golfer_at(time_s)[0])[1])


def test_the_hands_stay_on_the_grip(swing: SwingMotion, sampled: Sampled) -> None:
    for skeleton, club in sampled.golfers:
        for side in "lr":
            wrist_m = holding_hand(swing.rig, club, side, np.ones(3)).wrist_m
            assert np.linalg.norm(skeleton.head_of(f"hand_{side}") - wrist_m) < 0.006


def test_the_feet_do_not_slide(swing: SwingMotion, sampled: Sampled) -> None:
    planted = [swing.rig.index["foot_l"], swing.rig.index["ball_r"]]
    assert np.ptp(sampled.joints_m[:, planted], axis=0).max() < 1e-9


def test_bones_keep_their_length(swing: SwingMotion, sampled: Sampled) -> None:
    pairs = [("thigh_l", "calf_l"), ("calf_r", "foot_r"), ("lowerarm_l", "hand_l")]
    pairs += [("upperarm_r", "lowerarm_r"), ("upperarm_l", "lowerarm_l")]
    rig = swing.rig
    for one, other in pairs:
        bone_m = sampled.joints_m[:, rig.index[other]] - sampled.joints_m[:, rig.index[one]]
        lengths_m = np.linalg.norm(bone_m, axis=1)
        np.testing.assert_allclose(lengths_m, np.linalg.norm(rig.offset(one, other)), atol=1e-9)


def test_the_club_stays_above_the_ground_and_clear_of_the_head(sampled: Sampled) -> None:
    along = np.linspace(0, 1, 30)[:, None]
    for skeleton, club in sampled.golfers:
        assert club.head_m[1] > 0.015
        shaft = club.butt_m + along * (club.head_m - club.butt_m)
        assert np.linalg.norm(shaft - head_centre(skeleton), axis=1).min() > 0.15


def test_the_face_meets_the_ball(swing: SwingMotion) -> None:
    club = swing.golfer_at(swing.phases.impact_s)[1]
    ball_m = swing.ball_at(0.0)
    assert ball_m is not None
    gap_m = swing.style.club_held.half_head_m + 0.0214
    np.testing.assert_allclose(ball_m - club.head_m, [gap_m, 0.0, 0.0], atol=1e-6)
    assert club.face_normal[0] > 0.98
    assert swing.ball_at(swing.phases.impact_s + 0.5) is None


def test_the_goals_of_the_style_are_met_exactly(swing: SwingMotion) -> None:
    style, phases = swing.style, swing.phases
    at_p6 = knee_past_ankle_m(swing.golfer_at(phases.p6_s)[0])
    assert at_p6 == pytest.approx(style.knee_past_ankle_at_p6_m, abs=1e-6)
    rise_m = head_height_m(swing, phases.impact_s) - head_height_m(swing, phases.start_s)
    assert rise_m == pytest.approx(style.head_rise_at_impact_m, abs=1e-6)


def test_the_knee_moves_toward_its_goal_all_the_way_down(swing: SwingMotion) -> None:
    phases = swing.phases
    times = np.linspace(phases.top_s, phases.p6_s, 12)
    knees = [knee_past_ankle_m(swing.golfer_at(float(t))[0]) for t in times]
    assert all(later > earlier - 1e-6 for earlier, later in pairwise(knees))


def test_nothing_jumps_from_one_phase_to_the_next(swing: SwingMotion) -> None:
    """Position and velocity are continuous where one phase hands over to another."""
    phases, step_s = swing.phases, 1e-4
    for at_s in (phases.start_s, phases.top_s, phases.impact_s, phases.p8_s, phases.finish_s):
        before, here, after = (joints_m(swing, at_s + k * step_s) for k in (-1, 0, 1))
        change = np.linalg.norm((after - here) - (here - before), axis=1) / step_s
        assert change.max() < 0.5, "m/s, in a tenth of a millisecond"


def test_no_joint_flips(swing: SwingMotion, sampled: Sampled) -> None:
    """An elbow that snaps from one side to the other moves far faster than the hands."""
    speed = np.linalg.norm(np.diff(sampled.joints_m, axis=0), axis=2) / 0.01
    for bone, limit_m_s in {"lowerarm_l": 8, "lowerarm_r": 15, "calf_l": 4, "calf_r": 5}.items():
        assert speed[:, swing.rig.index[bone]].max() < limit_m_s


def test_the_finish_is_high_and_clear_of_the_face(swing: SwingMotion) -> None:
    skeleton, _ = swing.golfer_at(swing.duration_s)
    for side in "lr":
        hand_m = skeleton.head_of(f"hand_{side}")
        assert np.linalg.norm(hand_m - head_centre(skeleton)) > 0.22
        assert hand_m[1] > head_centre(skeleton)[1] - 0.02
        assert hand_m[0] > head_centre(skeleton)[0] + 0.10


def test_the_positions_are_a_golfers() -> None:
    """Common practice, no source: where coaches expect arm and shaft to be."""
    body, stature_m, style = STYLES["iron"]
    swing = SwingMotion(load_body(body, stature_m), style)
    arms = swing._arms
    top, p6 = arms.angles_at(swing.phases.top_s), arms.angles_at(swing.phases.p6_s)
    impact = arms.angles_at(swing.phases.impact_s)
    assert -145 < top.arm_deg < -125
    assert -270 < top.shaft_deg < -245
    assert -45 < p6.arm_deg < -20
    assert p6.shaft_deg == pytest.approx(-90.0, abs=1e-4)
    assert 0 <= impact.arm_deg < 12
    assert -12 < impact.shaft_deg < 0
    assert 45 < impact.shaft_plane_deg < 65


def test_an_early_release_leaves_the_arm_higher_at_shaft_parallel() -> None:
    arms = []
    for release in ("early", "normal", "late"):
        swing = SwingMotion(load_body("adult_male", 1.78), SwingStyle(release=release))
        arms.append(swing._arms.angles_at(swing.phases.p6_s).arm_deg)
    assert arms == sorted(arms)
    assert arms[2] - arms[0] > 5


def test_clubs_are_within_the_rules_of_equipment() -> None:
    """0.457 to 1.219 m, Equipment Rules (read in a secondary source)."""
    assert all(0.457 <= club.length_m <= 1.219 for club in CLUBS.values())


def test_the_default_tempo_is_a_tour_players() -> None:
    """Ratio near 3, 0.7-0.9 s back, 0.23-0.30 s down: Grober & Cholewicki 2006 (from memory)."""
    style = SwingStyle()
    assert 0.7 <= style.backswing_s <= 0.9
    assert 0.23 <= style.downswing_s <= 0.30
    assert 2.7 <= style.backswing_s / style.downswing_s <= 3.3


@pytest.mark.parametrize(
    "wrong", [{"club": "putter"}, {"release": "never"}, {"knee_past_ankle_at_p6_m": 0.3}]
)
def test_a_style_out_of_range_is_refused(wrong: dict[str, str | float]) -> None:
    with pytest.raises(ValueError, match=str(next(iter(wrong.values())))):
        SwingStyle(**wrong)  # type: ignore[arg-type]


def test_a_swing_travels_to_another_process(swing: SwingMotion) -> None:
    copy = pickle.loads(pickle.dumps(swing))
    np.testing.assert_array_equal(joints_m(copy, 1.0), joints_m(swing, 1.0))


@pytest.fixture(scope="module")
def calm() -> SwingMotion:
    return SwingMotion(load_body("adult_male", 1.78), SwingStyle(waggles=1))


@pytest.mark.parametrize("idle", [practice_stop, rehearsal, waggles, tee_a_ball])
def test_what_is_no_swing_begins_and_ends_at_address(idle: object, calm: SwingMotion) -> None:
    motion: Motion = idle(calm)  # type: ignore[operator]
    assert motion.swings == ()
    address = joints_m(calm, calm.phases.start_s)
    shoulders = [calm.rig.index[f"hand_{side}"] for side in "lr"]
    for time_s in (0.0, motion.duration_s):
        np.testing.assert_allclose(
            joints_m(motion, time_s)[shoulders], address[shoulders], atol=1e-3
        )


def test_a_rehearsal_never_reaches_the_top_or_the_ball(calm: SwingMotion) -> None:
    motion = rehearsal(calm)
    hands = calm.rig.index["hand_l"]
    highest = max(joints_m(motion, float(t))[hands, 1] for t in times_of(motion, 0.05))
    assert highest < joints_m(calm, calm.phases.top_s)[hands, 1] - 0.15
    assert motion.moment_at(motion.duration_s).ball_m is not None


def test_two_swings_in_one_take_join_up() -> None:
    body = load_body("adult_male", 1.78)
    first, second = SwingMotion(body, SwingStyle()), SwingMotion(body, SwingStyle())
    take = OneAfterAnother((first, regroup(first, second), second))
    assert [round(at, 6) for at, _ in take.swings] == [0.0, round(first.duration_s + 2.2, 6)]
    for join_s in (first.duration_s, first.duration_s + 2.2):
        before, after = joints_m(take, join_s - 1e-6), joints_m(take, join_s + 1e-6)
        np.testing.assert_allclose(before, after, atol=2e-3)


def test_a_walkers_feet_are_planted_in_turn() -> None:
    walk = Walk(load_body("adult_female", 1.66), z_m=-1.5, from_x_m=-2.0)
    person = walk.person
    toes = [person.bone(f"ball_{side}") for side in "lr"]
    feet = np.array([walk.bones_at(t)[toes, :3, 3] for t in np.arange(0, 3, 0.02)])
    speed = np.linalg.norm(np.diff(feet, axis=0), axis=2) / 0.02
    assert (speed.min(axis=1) < 0.05).all(), "one foot is always on the ground"
    assert feet[-1, :, 0].mean() - feet[0, :, 0].mean() == pytest.approx(3 * 1.15, abs=0.5)
