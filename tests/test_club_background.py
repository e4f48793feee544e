"""The still bay behind the club: a median that ignores what moves, and its flicker."""

import cv2
import numpy as np
import pytest

from baycue.club.background import (
    GreyPicture,
    difference,
    passing_difference,
    shrink_to_grey,
    still_background,
)


def flickering_bay(count: int, sigma: float, seed: int = 0) -> list[GreyPicture]:
    rng = np.random.default_rng(seed)
    bay = cv2.GaussianBlur(rng.uniform(0, 255, (120, 160)), (0, 0), 3)
    pictures = bay + rng.normal(0, sigma, (count, 120, 160))
    return [np.clip(np.rint(p), 0, 255).astype(np.uint8) for p in pictures]


@pytest.mark.parametrize("count", [1, 2, 5, 6, 15])
def test_the_still_bay_is_the_middle_picture_pixel_by_pixel(count: int) -> None:
    """As numpy's own partition tells it; of an even number the upper."""
    rng = np.random.default_rng(count)
    pictures = list(rng.integers(0, 256, (count, 20, 30)).astype(np.uint8))
    expected = np.partition(np.stack(pictures), count // 2, axis=0)[count // 2]
    assert np.array_equal(still_background(pictures).picture, expected)


def with_mover(pictures: list[GreyPicture]) -> list[GreyPicture]:
    """A white square that crosses the picture."""
    moved = [p.copy() for p in pictures]
    for k, picture in enumerate(moved):
        x = round(k * 120 / len(moved))
        picture[30:60, x : x + 30] = 255
    return moved


@pytest.mark.parametrize("count", [1, 2, 15, 40, 97])
def test_the_background_is_the_bay(count: int) -> None:
    pictures = flickering_bay(count, 0.0)
    assert np.array_equal(still_background(pictures).picture, pictures[0])


def test_what_moves_is_not_in_the_background() -> None:
    pictures = flickering_bay(60, 2.0)
    clean, crossed = still_background(pictures), still_background(with_mover(pictures))
    gap = crossed.picture.astype(int) - clean.picture.astype(int)
    assert np.abs(gap).max() < 12
    assert crossed.flicker == pytest.approx(clean.flicker, rel=0.1)


@pytest.mark.parametrize("sigma", [2.0, 4.0, 8.0])
def test_flicker_is_the_noise_of_a_pixel(sigma: float) -> None:
    """To 30 %: grey levels are whole numbers, and so is their median difference."""
    measured = still_background(flickering_bay(40, sigma, seed=2)).flicker
    assert measured == pytest.approx(sigma, rel=0.3)


def test_a_noiseless_bay_still_divides() -> None:
    background = still_background(flickering_bay(20, 0.0))
    assert background.flicker > 0
    assert np.all(difference(background.picture, background) == 0)


def test_differences_are_signed_and_in_flickers() -> None:
    pictures = flickering_bay(40, 3.0, seed=5)
    background = still_background(pictures)
    bright, dark = background.picture.copy(), background.picture.copy()
    bright[50, 50], dark[50, 50] = background.picture[50, 50] + 30, 0
    up = difference(bright, background)[50, 50]
    down = difference(dark, background)[50, 50]
    assert up == pytest.approx(30 / background.flicker, rel=1e-5)
    assert down == pytest.approx(-float(background.picture[50, 50]) / background.flicker, rel=1e-5)


@pytest.mark.parametrize("factor", [1, 2, 3])
def test_shrinking_averages_whole_blocks(factor: int) -> None:
    rng = np.random.default_rng(6)
    one_channel = rng.integers(0, 256, (60, 90), dtype=np.uint8)
    small = shrink_to_grey(np.repeat(one_channel[:, :, None], 3, axis=2), factor)
    blocks = one_channel.reshape(60 // factor, factor, 90 // factor, factor).mean(axis=(1, 3))
    assert small.shape == (60 // factor, 90 // factor)
    assert np.abs(small - blocks).max() <= 1.0


def test_grey_weighs_colours_as_the_eye_does() -> None:
    """ITU-R BT.601 luma: 0.299 red, 0.587 green, 0.114 blue."""
    blue, green, red = (np.zeros((4, 4, 3), np.uint8) for _ in range(3))
    blue[..., 0], green[..., 1], red[..., 2] = 255, 255, 255
    luma = [int(shrink_to_grey(p, 2)[0, 0]) for p in (blue, green, red)]
    assert luma == [round(255 * share) for share in (0.114, 0.587, 0.299)]


def test_what_stands_or_walks_is_no_passing_difference() -> None:
    """A leg that has hardly moved since is left out, a club that is only here now is not."""
    bay = flickering_bay(20, 1.0, seed=7)
    background = still_background(bay)
    around = [p.copy() for p in bay[:4]]
    for picture in around:
        picture[40:80, 60:80] = 255
    now = bay[5].copy()
    now[40:80, 62:82] = 255
    now[20:25, 10:50] = 255
    passing, whole = passing_difference(now, background, around), difference(now, background)
    assert np.all(passing[20:25, 10:50] > 0.8 * whole[20:25, 10:50])
    assert np.abs(passing[40:80, 64:78]).max() < 0.1 * np.abs(whole[40:80, 64:78]).max()
    assert np.all(np.abs(passing) <= np.abs(whole) + 1e-3)
