"""Frames that the pose model skipped, filled in between the poses before and after."""

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from baycue.glimpse import Glimpse
from baycue.live.fill_in import filled_in
from baycue.live.still import Still
from baycue.pose.pose import Pose
from baycue.spine import ScoredSwing, swing_news
from baycue.swing.swing import CheckpointName
from tests.filmed_swing import Film, glimpsed
from tests.test_spine import golfer, plan_with, scored_in


@cache
def filmed() -> tuple[Glimpse, ...]:
    """The swing from when the golfer has been seen for long enough to be believed."""
    return tuple(g for g in glimpsed(Film(golfer(), fps=60)) if g.pose)


def stills(glimpses: tuple[Glimpse, ...]) -> tuple[Still, ...]:
    return tuple(Still(g.frame_index, g.stamp_ns, g.grey) for g in glimpses)


def with_every(step: int) -> tuple[Glimpse, ...]:
    return filled_in(filmed()[::step], stills(filmed()), 0)


@pytest.mark.parametrize("step", [2, 3])
def test_every_frame_between_the_poses_is_there_once_with_its_own_picture(step: int) -> None:
    """And the one that comes just after the last pose."""
    filled = with_every(step)
    last = (len(filmed()) - 1) // step * step
    assert [g.stamp_ns for g in filled] == [g.stamp_ns for g in filmed()[: last + 2]]
    for got, true in zip(filled, filmed(), strict=False):
        assert got.grey is true.grey
        assert got.frame_index == true.frame_index
        assert got.pose is not None
        assert got.pose.stamp_ns == true.stamp_ns


def moving(cubed: float) -> tuple[Glimpse, ...]:
    """A golfer carried along at 100 frames a second, with ``cubed`` px/s3 of a cubic."""
    like = filmed()[0]
    assert like.pose is not None
    times_s = np.arange(0, 0.1, 0.01)
    moved_px = cubed * times_s**3 - 200 * times_s**2 + 900 * times_s
    return tuple(
        replace(
            like,
            frame_index=k,
            stamp_ns=round(t * 1e9),
            pose=replace(
                like.pose, frame_index=k, stamp_ns=round(t * 1e9), pixels=like.pose.pixels + moved
            ),
        )
        for k, (t, moved) in enumerate(zip(times_s, moved_px, strict=True))
    )


def assert_same_places(filled: Sequence[Glimpse], true: Sequence[Glimpse]) -> None:
    for got, expected in zip(filled, true, strict=True):
        assert got.pose is not None
        assert expected.pose is not None
        np.testing.assert_allclose(got.pose.pixels, expected.pose.pixels, atol=1e-6)


def test_poses_are_carried_on_along_a_cubic() -> None:
    """A cubic through four points is exact for a cubic motion (Lagrange)."""
    frames = moving(3000.0)
    assert_same_places(filled_in(frames[::3], stills(frames), 0), frames)


def test_just_after_the_last_pose_they_are_carried_on_along_a_parabola() -> None:
    """Two frames of 10 ms, and no third."""
    frames = moving(0.0)
    assert_same_places(filled_in(frames[:7], stills(frames), 0), frames[:9])


@pytest.mark.parametrize("step", [1, 2, 3])
def test_what_is_filled_in_stays_as_it_is_when_the_next_pose_comes(step: int) -> None:
    posed = filmed()[::step][:24]
    for count in range(5, len(posed)):
        until_ns = posed[count - 1].stamp_ns
        pictures = tuple(s for s in stills(filmed()) if s.stamp_ns <= until_ns)
        now = filled_in(posed[:count], pictures, 0)
        then = filled_in(posed[: count + 1], stills(filmed()), 0)
        assert len(now) == step * (count - 1) + 1
        for mine, theirs in zip(now, then, strict=False):
            assert mine.stamp_ns == theirs.stamp_ns
            assert mine.pose is not None
            assert theirs.pose is not None
            assert np.array_equal(mine.pose.pixels, theirs.pose.pixels)


def test_poses_are_carried_on_from_what_was_put_right() -> None:
    """A pose that has lost its place by 500 px, put right before it is carried on from."""
    lost = filmed()[10]
    assert lost.pose is not None
    right = lost.pose
    wrong = replace(lost, pose=replace(right, pixels=right.pixels + 500.0))

    def put_right(poses: Sequence[Pose]) -> Sequence[Pose]:
        return [right if pose is wrong.pose else pose for pose in poses]

    posed = (*filmed()[:10:2], wrong, *filmed()[12:20:2])
    expected = filled_in(filmed()[:20:2], stills(filmed()), 0)
    for got, true in zip(filled_in(posed, stills(filmed()), 0, put_right), expected, strict=True):
        if got is not wrong:
            assert got.pose is not None
            assert true.pose is not None
            np.testing.assert_array_equal(got.pose.pixels, true.pose.pixels)


def test_nothing_is_carried_far_beyond_the_poses_nor_over_a_long_gap() -> None:
    posed = filmed()[10:20] + filmed()[40:50]
    filled = filled_in(posed, stills(filmed()), 0)
    assert filled[:-1] == posed
    assert filled[-1].stamp_ns == filmed()[50].stamp_ns


def test_a_golfer_who_is_not_there_is_not_made_up() -> None:
    unseen = tuple(replace(g, pose=None) for g in filmed()[::2])
    assert filled_in(unseen, stills(filmed()), 0) == unseen


def test_pictures_of_another_size_are_left_out() -> None:
    others = tuple(replace(s, grey=s.grey[:50, :50]) for s in stills(filmed()))
    assert filled_in(filmed()[::2], others, 0) == filmed()[::2]


def test_what_is_older_is_left_out() -> None:
    since_ns = filmed()[30].stamp_ns
    assert filled_in(filmed()[::2], stills(filmed()), since_ns)[0].stamp_ns == since_ns


@cache
def scored(step: int) -> ScoredSwing:
    return scored_in(tuple(swing_news(with_every(step), plan_with())))


@pytest.mark.parametrize("step", [2, 3])
def test_the_swing_is_judged_as_if_every_frame_had_been_posed(step: int) -> None:
    whole, filled = (scored(s).evidence.swing for s in (1, step))
    for name in (CheckpointName.TOP, CheckpointName.P6, CheckpointName.IMPACT):
        mine, true = filled.at(name), whole.at(name)
        assert mine is not None
        assert true is not None
        # The drawn poses are noisy; with half of them another top is found, within its spread.
        usual_ns = true.sigma_ns if name is CheckpointName.TOP else 0
        assert abs(mine.time_ns - true.time_ns) < 4_000_000 + 2 * usual_ns
    assert scored(step).verdict.outcome is scored(1).verdict.outcome
    for got, expected in zip(scored(step).verdict.targets, scored(1).verdict.targets, strict=True):
        assert got.measurement is not None
        assert expected.measurement is not None
        assert got.measurement.value == pytest.approx(expected.measurement.value, abs=0.15)
