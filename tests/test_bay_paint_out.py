"""Who walks by is painted out; the golfer, who moves too, stays whole and leaves no ghost."""

from collections.abc import Iterator
from dataclasses import replace

import cv2
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baycue.bay.paint_out import PaintOut, median, shrunk
from baycue.capture.frame import Frame, Picture
from baycue.glimpse import glimpses
from baycue.pose.pose import Pose
from baycue.pose.sides import LEFT, RIGHT
from baycue.swing.hands import hand_sample
from tests.canned_swing import canned_swing
from tests.stick_golfer import frame_times_s, poses_of

TIMES_S = frame_times_s(15, -2.6, 0.1)
POSES = poses_of(TIMES_S, canned_swing())
DOWN_S = frame_times_s(60, -1.0, 0.26)
BODY_PX = float(np.median([hand_sample(p).body_px for p in POSES]))
WALK_PX_S = 340.0
NOISE = np.random.default_rng(1).integers(0, 4, (3, 720, 1280, 3), dtype=np.uint8)
WALKER, GOLFER, FLOOR = (40, 200, 40), (30, 30, 160), (120, 120, 120)


def walker_px(k: int) -> tuple[tuple[int, int], tuple[int, int]]:
    """Corners of a walker who comes nearer and is just beside the golfer at the top."""
    x = round(640 + 0.7 * BODY_PX - WALK_PX_S * float(TIMES_S[k]))
    return (x, 150), (x + round(0.22 * BODY_PX), 560)


def picture(k: int, walker: bool) -> Picture:
    drawn: Picture = np.full((720, 1280, 3), FLOOR, np.uint8) + NOISE[k % 3]
    if walker:
        cv2.rectangle(drawn, *walker_px(k), WALKER, cv2.FILLED)
    pose = POSES[k]
    for side in (LEFT, RIGHT):
        for limb in ((side.hip, side.knee, side.ankle), (side.shoulder, side.elbow, side.wrist)):
            path = np.round(pose.pixels[list(limb)]).astype(np.int32)
            cv2.polylines(drawn, [path], False, GOLFER, int(0.12 * BODY_PX))
    trunk = pose.pixels[[LEFT.shoulder, RIGHT.shoulder, RIGHT.hip, LEFT.hip]]
    cv2.fillPoly(drawn, [np.round(trunk).astype(np.int32)], GOLFER)
    return drawn


def shown_with(walker: bool, told: bool = True) -> Iterator[tuple[int, Picture, Picture]]:
    """Frame, picture as filmed and as shown; ``told``: whether the golfer is followed."""
    paint_out = PaintOut()
    for k, pose in enumerate(POSES):
        filmed = picture(k, walker)
        yield k, filmed, paint_out.shown(pose.stamp_ns, filmed)
        paint_out = paint_out.after(pose.stamp_ns, filmed, pose if told else None)


def of_colour(seen: Picture, colour: tuple[int, int, int]) -> int:
    return int((np.abs(seen.astype(int) - colour).max(axis=2) < 12).sum())


def test_somebody_walking_by_is_painted_out_and_the_golfer_is_not() -> None:
    left, golfer = [], []
    for k, filmed, shown in shown_with(walker=True):
        if TIMES_S[k] > -1.0:
            left.append(of_colour(shown, WALKER) / of_colour(picture(k, True), WALKER))
            golfer.append(of_colour(shown, GOLFER) / of_colour(filmed, GOLFER))
    assert np.median(left) < 0.1
    assert max(left) < 0.6
    assert min(golfer) > 0.995


def test_a_golfer_alone_is_shown_as_filmed_and_leaves_no_ghost() -> None:
    assert all(np.array_equal(filmed, shown) for _, filmed, shown in shown_with(walker=False))


def test_nothing_is_painted_before_the_bay_is_known_or_without_a_golfer() -> None:
    for k, filmed, shown in shown_with(walker=True):
        if TIMES_S[k] > -2.1:
            break
        assert shown is filmed
    assert all(shown is filmed for _, filmed, shown in shown_with(walker=True, told=False))


def test_pictures_of_another_size_begin_anew() -> None:
    paint_out = PaintOut()
    for k in range(15):
        paint_out = paint_out.after(POSES[k].stamp_ns, picture(k, False), POSES[k])
    other = np.zeros((360, 640, 3), np.uint8)
    assert paint_out.shown(POSES[15].stamp_ns, other) is other
    begun = paint_out.after(POSES[20].stamp_ns, other, POSES[20])
    assert (begun.samples, begun.bay) == ((), None)


@settings(deadline=None, max_examples=20)
@given(st.integers(0, 6), st.integers(0, 1000))
def test_the_network_finds_the_median(half: int, seed: int) -> None:
    stack = np.random.default_rng(seed).integers(0, 256, (2 * half + 1, 5, 7, 3), dtype=np.uint8)
    assert np.array_equal(median(list(stack)), np.median(stack, axis=0))


@pytest.mark.parametrize("size", [(720, 1280), (481, 641)])
def test_a_small_picture_is_a_quarter_as_large(size: tuple[int, int]) -> None:
    assert shrunk(np.zeros((*size, 3), np.uint8)).shape == (size[0] // 4, size[1] // 4, 3)


class Asked:
    """Knows every pose, but for one frame's, and keeps what it is shown."""

    def __init__(self, wrong: dict[int, Pose] | None = None) -> None:
        self.pictures: list[Picture] = []
        self._wrong = wrong or {}

    def estimate(self, frame: Frame) -> Pose | None:
        self.pictures.append(frame.picture_bgr)
        return self._wrong.get(frame.index, POSES[frame.index])

    def close(self) -> None: ...


def test_the_pose_model_alone_is_shown_the_painted_picture() -> None:
    asked = Asked()
    frames = (Frame(k, p.stamp_ns, picture(k, True)) for k, p in enumerate(POSES[:36]))
    last = list(glimpses(frames, asked))[-1]
    seen, filmed = asked.pictures[-1], picture(35, True)
    assert of_colour(seen, WALKER) < 0.3 * of_colour(filmed, WALKER)
    small = cv2.cvtColor(cv2.resize(filmed, (640, 360), interpolation=cv2.INTER_AREA), 6)
    assert np.abs(last.grey.astype(int) - small).max() <= 1


def walker_shown_after(frame: int, wrong: Pose) -> float:
    """How much of the walker is shown in the end, after one frame with another pose."""
    asked = Asked({frame: wrong})
    frames = (Frame(k, p.stamp_ns, picture(k, True)) for k, p in enumerate(POSES[:36]))
    list(glimpses(frames, asked))
    return of_colour(asked.pictures[-1], WALKER) / of_colour(picture(35, True), WALKER)


def test_the_bay_is_still_known_when_a_head_was_put_on_the_passer() -> None:
    """That is a jump, and yet the same golfer; whoever stands elsewhere may be another."""
    pose = POSES[32]
    head, aside = pose.pixels.copy(), pose.pixels + np.array([0.6 * BODY_PX, 0.0])
    head[:11] -= [0.0, 0.5 * BODY_PX]
    assert walker_shown_after(32, pose) < 0.3
    assert walker_shown_after(32, replace(pose, pixels=head)) < 0.3
    assert walker_shown_after(32, replace(pose, pixels=aside)) == 1.0


def last_shown_with(*stepping: int) -> tuple[Picture, Picture]:
    """As filmed and as shown at the end, these ankles a step aside since a quarter of a second."""
    paint_out, filmed, seen = PaintOut(), picture(0, True), picture(0, True)
    for k, pose in enumerate(POSES):
        pixels = pose.pixels.copy()
        if k > len(POSES) - 5:
            pixels[list(stepping)] += [0.2 * BODY_PX, 0.0]
        filmed = picture(k, True)
        seen = paint_out.shown(pose.stamp_ns, filmed)
        paint_out = paint_out.after(pose.stamp_ns, filmed, replace(pose, pixels=pixels))
    return filmed, seen


def test_for_a_golfer_who_walks_about_nothing_is_painted_out() -> None:
    filmed, seen = last_shown_with(LEFT.ankle, RIGHT.ankle)
    assert seen is filmed
    filmed, seen = last_shown_with(LEFT.ankle)
    assert of_colour(seen, WALKER) < 0.5 * of_colour(filmed, WALKER), "one foot is no walk"


def test_while_the_club_comes_down_the_bay_is_not_learnt_anew() -> None:
    """From the top (0 s) on the hands soon go fast; back up there they do not."""
    learnt, bay, paint_out = [], None, PaintOut()
    for k, pose in enumerate(poses_of(DOWN_S, canned_swing())):
        paint_out = paint_out.after(pose.stamp_ns, picture(k % len(POSES), False), pose)
        if paint_out.bay is not bay:
            bay = paint_out.bay
            learnt.append(float(DOWN_S[k]))
    assert any(-0.4 < at_s < 0.0 for at_s in learnt)
    assert not any(0.12 < at_s < 0.26 for at_s in learnt)
    assert any(DOWN_S > 0.2)
