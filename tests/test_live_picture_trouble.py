"""Pictures by which no swing can be judged are told, and good ones are not complained of."""

import numpy as np
import pytest

from baycue.capture.shot import Shot
from baycue.errors import CameraError
from baycue.live.picture_trouble import PictureTrouble, picture_trouble
from baycue.live.still import Still
from tests.test_capture_network import jpeg

MS = 1_000_000
GREY, BLACK = 90, 3


def shots(times_ms: list[float]) -> list[Shot]:
    return [Shot(k, round(at * MS), b"") for k, at in enumerate(times_ms)]


def stills(times_ms: list[float], grey: int = GREY) -> list[Still]:
    picture = np.full((90, 160), grey, np.uint8)
    return [Still(k, round(at * MS), picture) for k, at in enumerate(times_ms)]


def steady(fps: float, seconds: float = 3.0) -> list[float]:
    return [1000 * k / fps for k in range(round(seconds * fps))]


def told(times_ms: list[float], grey: int = GREY) -> PictureTrouble:
    return picture_trouble(shots(times_ms), stills(times_ms, grey))


@pytest.mark.parametrize("fps", [24.0, 30.0, 60.0, 120.0])
def test_a_steady_camera_is_well(fps: float) -> None:
    assert told(steady(fps)) == PictureTrouble()


def test_a_third_of_the_pictures_lost_is_borne() -> None:
    kept = [at for k, at in enumerate(steady(30.0)) if k % 3]
    assert told(kept) == PictureTrouble()


def test_one_gap_is_borne() -> None:
    assert told([at for at in steady(30.0) if not 1000 < at < 1600]) == PictureTrouble()


def test_nothing_is_said_of_a_camera_just_opened() -> None:
    assert told(steady(8.0, 1.0)) == PictureTrouble()


def test_too_few_pictures_are_told_and_the_bay_still_seen() -> None:
    trouble = told(steady(8.0))
    assert not trouble.blind
    assert "only 8 pictures a second" in trouble.words


def test_bunches_are_told_with_how_far_apart_they_are() -> None:
    bunched = [800 * (k // 24) + 2 * (k % 24) for k in range(96)]
    trouble = told([float(at) for at in bunched])
    assert trouble.blind
    assert "bunches, 0.8 s apart" in trouble.words


def test_black_is_told() -> None:
    assert "black" in told(steady(30.0), BLACK).words


def test_pictures_of_which_none_can_be_used_are_told() -> None:
    trouble = picture_trouble(shots(steady(30.0)), [])
    assert trouble.blind
    assert "damaged" in trouble.words


def test_a_jpeg_without_its_end_is_damaged() -> None:
    whole = jpeg(1)
    assert Shot(0, 0, whole).developed().picture_bgr.ndim == 3
    assert Shot(0, 0, whole + b"\0" * 500).developed().picture_bgr.ndim == 3
    with pytest.raises(CameraError, match=r"cut short|damaged"):
        Shot(0, 0, whole[: len(whole) // 2]).developed()
