"""What is new beside a golfer: somebody, unless too small or the golfer's own hands and club."""

import numpy as np
import pytest

from baycue.bay.golfer_place import Mask
from baycue.bay.newcomer import GolferThen, golfer_then, passer_in
from baycue.swing.hands import hand_sample
from tests.canned_swing import canned_swing
from tests.stick_golfer import frame_times_s, poses_of

GOLFER = GolferThen(body_px=70.0, hands_px=np.array([100.0, 90.0]))
EVERYWHERE = np.ones((180, 320), np.uint8)


def piece(x: int, y: int, width: int, height: int) -> Mask:
    new = np.zeros_like(EVERYWHERE)
    new[y : y + height, x : x + width] = 1
    return new


@pytest.mark.parametrize(
    ("new", "is_somebody"),
    [
        (piece(200, 90, 6, 5), True),
        (piece(200, 90, 6, 4), False),
        (piece(200, 90, 40, 2), False),
        (piece(95, 85, 10, 10), False),
        (piece(110, 80, 6, 18), True),
        (piece(95, 118, 10, 10), True),
    ],
    ids=["large", "small", "thin", "low at the hands", "tall at the hands", "low below them"],
)
def test_somebody_is_large_and_not_what_the_hands_hold(new: Mask, is_somebody: bool) -> None:
    """The golfer measures 70 px: 25 px show somebody, and at the hands 18 px of height do."""
    found = passer_in(new, EVERYWHERE, GOLFER)
    assert (found is not None) == is_somebody
    if found is not None:
        assert np.all(found[new == 1] == 1)


def test_nothing_is_found_where_nobody_may_be() -> None:
    new, open_to = piece(200, 60, 10, 40), EVERYWHERE.copy()
    open_to[:, 204:] = 0
    found = passer_in(new & open_to, open_to, GOLFER)
    assert found is not None
    assert found[:, :204].any()
    assert not found[:, 204:].any()


def test_a_golfer_who_is_far_off_is_walked_past_by_somebody_small() -> None:
    far = GolferThen(body_px=30.0, hands_px=np.array([100.0, 90.0]))
    assert passer_in(piece(200, 90, 3, 4), EVERYWHERE, far) is not None
    assert passer_in(piece(200, 90, 3, 4), EVERYWHERE, GOLFER) is None


def test_the_golfer_then_is_in_the_small_pictures_pixels() -> None:
    poses = poses_of(frame_times_s(30, -0.5, -0.4), canned_swing())
    then = golfer_then(poses, poses[-1].stamp_ns, 4)
    assert then.body_px == pytest.approx(hand_sample(poses[-1]).body_px / 4)
    assert then.hands_px == pytest.approx(poses[-1].pixels[[15, 16]].mean(axis=0) / 4)
