"""The population: always the same, within its ranges, and the golfer in the picture."""

import hashlib
from collections import Counter
from dataclasses import asdict

import numpy as np
import pytest

from baycue.bench.coach import ASKED, plan_for
from baycue.bench.framing import round_the_golfer_deg, shows
from baycue.bench.population import SHORT_FPS_SHARES, Draw, draw
from baycue.bench.render import frames
from baycue.bench.slices import BY_MAKE
from baycue.bench.staging import Staged, staged
from baycue.synthetic.clip import render_frame, stage_of
from baycue.synthetic.oddity import NO_ODDITY, ODD_KINDS, OddKind
from baycue.synthetic.rig import Rig
from baycue.synthetic.truth_file import POINTS, points_of

DRAWS = tuple(draw(7, number) for number in range(150))
DRAWN_BEFORE = "3cb2cef4a838eb3fc61ba27a6f88da12ff80dbf89810c9ac0987035f99d8e3ec"


def test_a_draw_is_the_same_however_many_are_drawn_before_it() -> None:
    assert draw(7, 41) == DRAWS[41]
    assert draw(8, 41) != DRAWS[41]


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [
        ("distance_m", 2.5, 5.0),
        ("height_m", 0.6, 1.6),
        ("yaw_deg", -10.0, 10.0),
        ("tilt_deg", -5.0, 5.0),
        ("roll_deg", -5.0, 5.0),
        ("field_of_view_deg", 55.0, 90.0),
    ],
)
def test_cameras_fill_their_ranges_and_stay_within(name: str, low: float, high: float) -> None:
    drawn = [getattr(d.camera, name) for d in DRAWS]
    assert low <= min(drawn)
    assert max(drawn) <= high
    assert max(drawn) - min(drawn) > 0.7 * (high - low)


def test_golfers_and_swings_fill_their_ranges() -> None:
    statures = [d.golfer.stature_m for d in DRAWS]
    knees = [d.style.knee_past_ankle_at_p6_m for d in DRAWS]
    assert 1.50 <= min(statures) < 1.55 < 1.90 < max(statures) <= 1.95
    assert -0.08 <= min(knees) < -0.06 < 0.08 < max(knees) <= 0.10


def test_every_kind_is_drawn() -> None:
    for kinds, count in (
        ({d.golfer.body for d in DRAWS}, 3),
        ({d.style.club for d in DRAWS}, 3),
        ({d.style.release for d in DRAWS}, 3),
        ({d.bay for d in DRAWS}, 3),
        ({d.camera.handedness for d in DRAWS}, 2),
        ({d.mirrored for d in DRAWS}, 2),
        ({d.bright_shaft for d in DRAWS}, 2),
        ({d.walker is None for d in DRAWS}, 2),
        ({d.stated_fov_deg is None for d in DRAWS}, 2),
    ):
        assert len(kinds) == count


def test_about_a_third_of_the_swings_are_of_another_make_and_all_makes_are_drawn() -> None:
    kinds = Counter(d.style.oddity.kind for d in DRAWS if d.style.oddity != NO_ODDITY)
    assert kinds.total() == pytest.approx(0.35 * 150, abs=15)  # 2.5 sigmas of a binomial
    assert set(kinds) == set(ODD_KINDS)
    amounts = [d.style.oddity.amount for d in DRAWS if d.style.oddity != NO_ODDITY]
    assert all(0.5 <= abs(amount) <= 1.0 for amount in amounts)
    assert 0.3 < np.mean(np.array(amounts) > 0) < 0.7


def test_every_swing_is_in_one_slice_of_its_make() -> None:
    plain, odd, *makes = BY_MAKE
    for drawn in DRAWS:
        assert plain.holds(drawn) != odd.holds(drawn)
        assert sum(make.holds(drawn) for make in makes) == odd.holds(drawn)


def _digest(draws: list[Draw]) -> str:
    """Of all that is drawn but the oddity and, where it renames the release, the release."""
    drawn = [asdict(d) for d in draws]
    for one in drawn:
        oddity = one["style"].pop("oddity")
        if oddity["kind"] in (OddKind.DRIVEN_WRIST, OddKind.LATE_WRIST, OddKind.CAST):
            one["style"].pop("release")
    return hashlib.sha256(repr(drawn).encode()).hexdigest()


def test_oddities_left_everything_else_that_is_drawn_as_it_was() -> None:
    """Digests and truth recorded from the population before it had any."""
    assert _digest([draw(2, n) for n in range(60)]) == DRAWN_BEFORE
    assert draw(2, 1).style.oddity == NO_ODDITY
    true = staged(draw(2, 1)).truth
    assert true.checkpoints_s["P5"] == pytest.approx(1.9018172450656359, abs=1e-9)
    assert true.checkpoints_s["P6"] == pytest.approx(1.9824306006122205, abs=1e-9)
    assert true.club_head_speed_m_s == pytest.approx(45.999438188260065, abs=1e-6)


def test_half_the_swings_are_at_30_frames_a_second() -> None:
    rates = Counter(d.fps for d in DRAWS)
    assert set(rates) == {30.0, 60.0, 120.0}
    assert rates[30.0] == pytest.approx(75, abs=15)  # 2.5 sigmas of a binomial
    assert draw(7, 3, SHORT_FPS_SHARES).fps == 30.0


def test_no_shutter_is_open_longer_than_a_frame() -> None:
    assert all(1 / 1000 <= d.shutter_s <= min(1 / 50, 1 / d.fps) + 1e-12 for d in DRAWS)


def test_the_camera_stands_no_more_than_ten_degrees_round_the_golfer() -> None:
    assert max(abs(round_the_golfer_deg(d.camera)) for d in DRAWS) <= 10.0


def test_the_stated_stature_is_about_a_centimetre_off() -> None:
    off = [d.stated_stature_m - d.golfer.stature_m for d in DRAWS]
    assert np.std(off) == pytest.approx(0.01, rel=0.3)
    assert abs(np.mean(off)) < 0.003


@pytest.mark.parametrize("number", range(4))
def test_the_whole_golfer_is_in_the_picture_through_the_swing(number: int) -> None:
    drawn = DRAWS[number]
    stage = staged(drawn)
    assert shows(drawn.camera, drawn.golfer.stature_m)
    body = [name not in ("club_butt", "club_head", "ball") for name in POINTS]
    for time_s in np.linspace(0.0, stage.truth.checkpoints_s["P8"], 8):
        pixels = _points_px(stage, float(time_s))[body]
        assert np.all((pixels > 0) & (pixels < [1280, 720]))


def _points_px(stage: Staged, time_s: float) -> np.ndarray:
    moment = stage.motion.moment_at(time_s)
    points = points_of(Rig(stage.shot.body), moment)
    return stage.shot.picture_px(np.array([np.zeros(3) if p is None else p for p in points]))


def test_a_short_golfer_whose_head_rises_most_can_be_staged() -> None:
    """Number 60 of seed 6: at P8 the head cannot be another 12 mm above where it is at impact."""
    asked_m = draw(6, 60).style.head_rise_at_impact_m
    rises_m = staged(draw(6, 60)).truth.head_rise_m
    assert rises_m["impact"] == pytest.approx(asked_m, abs=1e-3)
    assert rises_m["P8"] == pytest.approx(asked_m, abs=0.04)


def test_the_plan_says_what_the_coach_knows() -> None:
    for drawn in DRAWS[:40]:
        plan = plan_for(drawn)
        assert plan.handedness is drawn.camera.handedness
        assert plan.camera.mirrored is drawn.mirrored
        assert plan.stature_m == pytest.approx(drawn.stated_stature_m)
        assert plan.camera.horizontal_fov_deg == (drawn.stated_fov_deg or 70.0)
        assert [t.title for t in plan.targets] == [asked.name for asked in ASKED]


def test_what_the_plan_asks_is_what_was_drawn() -> None:
    drawn = DRAWS[0]
    true = staged(drawn).truth
    wanted = (drawn.style.knee_past_ankle_at_p6_m, drawn.style.head_rise_at_impact_m)
    assert [asked.truth(true) for asked in ASKED[:2]] == pytest.approx(wanted, abs=1e-4)


def test_the_bench_renders_the_frames_that_a_recipe_would() -> None:
    stage = staged(_still(DRAWS))
    scene = stage_of(stage.shot)
    for frame in frames(stage):
        if frame.index in (0, 3):
            plain = render_frame(stage.shot, scene, stage.motion.moment_at, frame.index)
            assert np.array_equal(frame.picture_bgr, plain)
        if frame.index == 3:
            break


def _still(draws: tuple[Draw, ...]) -> Draw:
    """One in which nobody walks, so that the first frames show nothing that moves."""
    return next(d for d in draws if d.walker is None and d.mirrored)
