"""The bench of what is no swing: what it draws, shows, counts and keeps."""

import io
import json
from collections.abc import Callable
from dataclasses import replace
from itertools import islice
from pathlib import Path

import numpy as np
import pytest
from rich.console import Console

from baycue.bench import idle_parts
from baycue.bench.idle_activities import ACTIVITIES
from baycue.bench.idle_parts import BELLY_SHARE, HIP_SHARE
from baycue.bench.idle_population import (
    HEIGHT_PX,
    SECONDS,
    WIDTH_PX,
    IdleClip,
    idle_clip,
    idle_draw,
    idle_draws,
)
from baycue.bench.idle_record import IdleRecord, by_activity, from_line, to_line
from baycue.bench.idle_render import frame_count, idle_frames
from baycue.bench.idle_take import golfer_in_picture, keep_clip, shown
from baycue.bench.results import add_line
from baycue.capture.clip_writer import ClipWriter
from baycue.commands.bench_idle import IdleRequest, run_bench_idle
from baycue.errors import OutputError
from baycue.synthetic.body import load_body
from baycue.synthetic.flowing import Flowing, Pace, half_swing, reach_overhead
from baycue.synthetic.motion import Motion, standing_still
from baycue.synthetic.stretches import Stretch, arms_overhead, trunk_turns
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.swing_style import SwingStyle
from baycue.synthetic.visit import Nobody, Visit
from baycue.synthetic.walk import Walk

NUMBER = {name: number for number, name in enumerate(ACTIVITIES)}


@pytest.fixture(scope="module")
def swing() -> SwingMotion:
    return SwingMotion(load_body("adult_male", 1.80), SwingStyle())


def wrist_m(motion: Motion, time_s: float, side: str = "l") -> np.ndarray:
    bones = motion.moment_at(time_s).bones
    assert bones is not None
    return np.asarray(bones[motion.body.bone(f"hand_{side}"), :3, 3])


def highest_m(motion: Motion) -> float:
    return max(float(wrist_m(motion, float(t))[1]) for t in np.linspace(0, motion.duration_s, 120))


def record(number: int, swings_at_s: tuple[float, ...] = (), golfer: int = 90) -> IdleRecord:
    return IdleRecord(idle_draw(1, number), 100, golfer, 80, min(golfer, 75), swings_at_s, 1.0)


def test_a_draw_is_always_the_same_and_activities_take_turns() -> None:
    assert idle_draw(3, 8) == idle_draw(3, 8)
    assert [idle_draw(1, n).activity for n in range(len(ACTIVITIES))] == list(ACTIVITIES)
    assert {type(idle_draw(1, n).drawn.walker) for n in range(3)} != {type(None)}


def test_as_many_clips_are_drawn_as_fill_the_minutes() -> None:
    draws = list(idle_draws(1, minutes=4))
    assert sum(one.about_s for one in draws) >= 240 > sum(one.about_s for one in draws[:-1])
    assert all(SECONDS[0] <= one.about_s <= SECONDS[1] for one in draws)


@pytest.mark.parametrize("activity", ACTIVITIES)
def test_an_activity_lasts_about_as_long_as_told_and_holds_no_swing(activity: str) -> None:
    one = idle_draw(1, NUMBER[activity])
    motion = idle_clip(one).motion
    assert motion.swings == ()
    assert one.about_s - 1 <= motion.duration_s < one.about_s + 25
    for time_s in np.linspace(0, motion.duration_s, 9):
        moment = motion.moment_at(float(time_s))
        assert moment.bones is None or np.isfinite(moment.bones).all()


@pytest.mark.parametrize("share", [HIP_SHARE, BELLY_SHARE])
def test_half_swings_stay_under_their_height_and_pass_the_ball(
    swing: SwingMotion, share: float
) -> None:
    motion = half_swing(swing, share, Pace())
    assert highest_m(motion) == pytest.approx(share * swing.body.stature_m, abs=0.04)
    x_m = [wrist_m(motion, float(t))[0] for t in np.linspace(0, motion.duration_s, 120)]
    assert min(x_m) < -0.2 < 0.3 < max(x_m)
    assert wrist_m(motion, motion.duration_s) == pytest.approx(wrist_m(motion, 0.0), abs=1e-6)


def test_a_half_swing_to_a_height_that_is_not_reached_is_refused(swing: SwingMotion) -> None:
    with pytest.raises(ValueError, match="never"):
        half_swing(swing, 1.4, Pace())


@pytest.mark.parametrize(
    "motion_of",
    [lambda s: reach_overhead(s, 1.2, 0.5, 1.0), lambda s: arms_overhead(s, with_club=True)],
)
def test_arms_go_overhead(swing: SwingMotion, motion_of: Callable[[SwingMotion], Motion]) -> None:
    assert highest_m(motion_of(swing)) > swing.body.stature_m


def test_a_club_across_the_shoulders_turns_with_the_trunk(swing: SwingMotion) -> None:
    motion = trunk_turns(swing, with_club=True)
    turns_deg = []
    for time_s in np.linspace(0.9, motion.duration_s - 0.8, 40):
        club = motion.moment_at(float(time_s)).club
        assert club is not None
        assert 0.7 < club.butt_m[1] / swing.body.stature_m < 1.0
        along = club.head_m - club.butt_m
        turns_deg.append(np.degrees(np.arctan2(along[2], along[0])))
    assert np.ptp(turns_deg) > 90


def test_a_visitor_comes_stays_and_goes(swing: SwingMotion) -> None:
    visit = Visit(swing, Walk(swing.body, 0.0, -4.2, 1.2), away_s=1.0, stay_s=3.0)
    assert visit.moment_at(0.5).bones is None
    assert visit.moment_at(visit.duration_s - 0.5).bones is None
    assert wrist_m(visit, 1.2)[0] < -3
    assert abs(wrist_m(visit, visit.duration_s / 2)[0]) < 1
    assert wrist_m(visit, visit.duration_s - 1.2)[0] < -3


def short(motion_of: Callable[[SwingMotion], Motion]) -> IdleClip:
    clip = idle_clip(idle_draw(1, NUMBER["empty bay"]))
    return replace(clip, motion=motion_of(SwingMotion(clip.shot.body, SwingStyle())))


def test_while_nothing_moves_only_the_noise_is_new() -> None:
    clip = short(lambda s: standing_still(s, 0.2))
    first, second = (f.picture_bgr.astype(float) for f in islice(idle_frames(clip), 2))
    assert first.shape == (HEIGHT_PX, WIDTH_PX, 3)
    assert 0 < np.abs(first - second).mean() < 6
    assert frame_count(clip) == 5


def test_an_empty_bay_holds_no_golfer_and_a_clip_is_kept_once(tmp_path: Path) -> None:
    nobody, somebody = short(lambda s: Nobody(s, 1.0, True)), short(lambda s: standing_still(s, 1))
    assert not golfer_in_picture(nobody, 0.5)
    assert golfer_in_picture(somebody, 0.5)
    (tmp_path / "kept.mp4").write_bytes(b"mine")
    with pytest.raises(OutputError):
        keep_clip(idle_draw(1, 0), tmp_path / "kept.mp4")


def test_a_kept_idle_clip_is_shown_instead_of_drawn_anew(tmp_path: Path) -> None:
    with ClipWriter(tmp_path / "idle-1-000.mp4", 64, 48) as writer:
        for frame in islice(idle_frames(short(lambda s: standing_still(s, 0.2))), 3):
            writer.write(replace(frame, picture_bgr=np.full((48, 64, 3), 90, np.uint8)))
    with shown(idle_draw(1, 0), tmp_path) as frames:
        assert [f.picture_bgr.shape for f in frames] == 3 * [(48, 64, 3)]
    with shown(idle_draw(1, 0), None) as frames:
        assert next(iter(frames)).picture_bgr.shape == (HEIGHT_PX, WIDTH_PX, 3)


def test_sums_tell_each_activity_and_all() -> None:
    records = [record(0), record(0, (3.5, 9.0)), record(NUMBER["empty bay"], golfer=0)]
    waggles, empty, everything = by_activity(records)
    assert (waggles.clips, waggles.false_swings, waggles.false_in) == (2, 2, (0,))
    assert waggles.seen_share == pytest.approx(75 / 90)
    assert waggles.ghost_share == pytest.approx(0.5)
    assert np.isnan(empty.seen_share)
    assert empty.ghost_share == pytest.approx(0.8)
    assert everything.minutes == pytest.approx(300 / 25 / 60)


def test_a_record_survives_its_line() -> None:
    kept = record(5, (1.25,))
    assert from_line(to_line(kept)) == kept


def test_a_finished_idle_bench_is_told_without_taking_it_again(tmp_path: Path) -> None:
    request = IdleRequest(minutes=1.0, seed=1, out=tmp_path)
    for one in request.draws:
        add_line(request.results, to_line(record(one.number, (2.0,) if one.number == 1 else ())))
    console = Console(record=True, width=150, file=io.StringIO())
    run_bench_idle(request, console)
    said = console.export_text()
    assert "teeing a ball" in said
    assert "Synthetic" in said
    document = json.loads((tmp_path / "idle.json").read_text())
    assert document["activities"][-1]["false_swings"] == 1


def test_another_seed_s_idle_results_are_refused(tmp_path: Path) -> None:
    request = IdleRequest(minutes=1.0, seed=2, out=tmp_path)
    add_line(request.results, to_line(record(0)))
    with pytest.raises(OutputError, match="seed 1, not 2"):
        run_bench_idle(request, Console(file=io.StringIO()))


def test_pieces_are_drawn_within_their_bounds(swing: SwingMotion) -> None:
    rng = np.random.default_rng(1)
    for _ in range(3):
        assert isinstance(idle_parts.half(rng, swing), Flowing)
        assert isinstance(idle_parts.stretch(rng, swing, False), Stretch)
        assert highest_m(idle_parts.chip(rng, swing)) < (HIP_SHARE + 0.03) * swing.body.stature_m
