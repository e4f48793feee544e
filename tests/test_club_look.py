"""Which pictures the one that is looked at is held against."""

import numpy as np
import pytest

from baycue.club.look import moments_around, settled_count
from baycue.club.scene import ClubScene

COUNT, TOP = 60, 20


def scene(fps: float, count: int = COUNT) -> ClubScene:
    """So many frames, the club coming down fast from the one numbered ``TOP`` on."""
    turning = np.where(np.arange(count) < TOP, -1, 1).astype(np.int8)
    return ClubScene(
        stamps_ns=tuple(round(k * 1e9 / fps) for k in range(count)),
        frame_indices=tuple(range(count)),
        greys=[np.zeros((4, 4), np.uint8)] * count,
        hands_px=np.zeros((count, 2)),
        arm_deg=np.arange(count, dtype=np.float64) * (600.0 / fps),
        body_px=100.0,
        turning=turning,
        target_on_right=True,
    )


@pytest.mark.parametrize("fps", [60, 120])
def test_where_frames_are_close_together_none_waits_for_the_last(fps: float) -> None:
    """So that what they tell is known before it has come."""
    without, whole = scene(fps, COUNT - 1), scene(fps)
    assert moments_around(without, one_more=True) == moments_around(whole)[:-1]


def test_where_they_are_far_apart_the_last_is_needed() -> None:
    assert COUNT - 1 in {k for around in moments_around(scene(30)) for k in around}


@pytest.mark.parametrize("fps", [30, 60, 120])
@pytest.mark.parametrize("count", [30, 40, 50])
def test_what_is_settled_is_held_against_the_same_when_more_have_come(
    fps: float, count: int
) -> None:
    some = scene(fps, count)
    settled = settled_count(some)
    assert count - settled <= 0.14 * fps
    assert moments_around(some)[:settled] == moments_around(scene(fps))[:settled]


def test_only_fast_clubs_are_held_against_others() -> None:
    assert not any(moments_around(scene(60))[:TOP])
    assert all(moments_around(scene(60))[TOP + 1 :])
