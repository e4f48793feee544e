"""When the ball is seen to go, in small made-up pictures of a mat."""

from dataclasses import replace
from functools import lru_cache

import cv2
import numpy as np
import pytest
from numpy.typing import NDArray

from baycue.club.background import GreyPicture
from baycue.club.ball import BALL_DIAMETER_M, BallScene, ball_gone_ns

FloatArray = NDArray[np.float64]

WIDTH_PX, HEIGHT_PX = 320, 180
PX_PER_M = 130.0
BALL_AT_PX = (170, 150)
TOP_NS, RETURN_NS = 5_000_000_000, 5_300_000_000
_WHITE = 225.0


def with_ball(picture: FloatArray, at_px: tuple[int, int]) -> None:
    cover = ball_cover(at_px)
    picture += cover * (_WHITE - picture)


@lru_cache(maxsize=4)
def ball_cover(at_px: tuple[int, int]) -> FloatArray:
    """How much of each pixel the ball covers, 0 to 1."""
    fine = np.zeros((HEIGHT_PX * 8, WIDTH_PX * 8), np.float32)
    centre = (at_px[0] * 8, at_px[1] * 8)
    cv2.circle(fine, centre, round(BALL_DIAMETER_M * PX_PER_M * 4), 1.0, -1)
    return np.asarray(cv2.resize(fine, (WIDTH_PX, HEIGHT_PX), interpolation=cv2.INTER_AREA))


def mat(rng: np.random.Generator) -> FloatArray:
    return np.asarray(rng.normal(70.0, 2, (HEIGHT_PX, WIDTH_PX)))


def filmed(
    gone_ns: int | None,
    fps: float = 60,
    phase: float = 0.3,
    spare_ball: bool = False,
    leg: bool = False,
) -> BallScene:
    """From before the top to a tenth of a second past the strike."""
    rng = np.random.default_rng(3)
    stamps = [TOP_NS + round((t + phase / fps) * 1e9) for t in np.arange(-0.4, 0.41, 1 / fps)]
    greys: list[GreyPicture] = []
    for stamp in stamps:
        picture = mat(rng)
        if gone_ns is None or stamp < gone_ns:
            with_ball(picture, BALL_AT_PX)
        if spare_ball:
            with_ball(picture, (60, 160))
        if leg:
            x = 80 + round(60 * (stamp - stamps[0]) / (stamps[-1] - stamps[0]))
            cv2.rectangle(picture, (x, 0), (x + 25, 165), 200.0, -1)
        greys.append(np.clip(picture, 0, 255).astype(np.uint8))
    box = (20, 100, WIDTH_PX - 20, HEIGHT_PX)
    return BallScene(greys, tuple(stamps), box, PX_PER_M, TOP_NS, RETURN_NS)


@pytest.mark.parametrize("fps", [30, 60, 120])
@pytest.mark.parametrize("phase", [0.0, 0.4, 0.8])
@pytest.mark.parametrize("after_return_ms", [0, 15, 40])
def test_the_strike_lies_between_the_last_frame_with_the_ball_and_the_next(
    fps: float, phase: float, after_return_ms: int
) -> None:
    """An even chance over a frame's time has a spread of it over root 12 (any textbook)."""
    gone_ns = RETURN_NS + after_return_ms * 1_000_000 + 1
    found = ball_gone_ns(filmed(gone_ns, fps, phase))
    assert found is not None
    frame_ns = 1e9 / fps
    assert abs(found[0] - gone_ns) <= frame_ns / 2 + 2
    assert found[1] == pytest.approx(frame_ns / np.sqrt(12), rel=0.01)


@pytest.mark.parametrize("beside", [{"spare_ball": True}, {"leg": True}], ids=["ball", "leg"])
def test_what_else_lies_or_moves_about_is_not_taken_for_it(beside: dict[str, bool]) -> None:
    gone_ns = RETURN_NS + 20_000_000
    found = ball_gone_ns(filmed(gone_ns, **beside))
    assert found is not None
    assert abs(found[0] - gone_ns) < 1e9 / 60


def test_a_ball_that_stays_was_not_struck() -> None:
    assert ball_gone_ns(filmed(None)) is None
    assert ball_gone_ns(filmed(None, leg=True)) is None


def test_a_ball_that_was_never_there_does_not_go() -> None:
    assert ball_gone_ns(filmed(TOP_NS - 10_000_000_000)) is None


def test_a_ball_that_goes_long_before_the_hands_are_back_was_not_struck_by_them() -> None:
    assert ball_gone_ns(filmed(TOP_NS + 150_000_000)) is None


def test_outside_the_ground_looked_at_nothing_is_seen() -> None:
    scene = filmed(RETURN_NS + 20_000_000)
    assert ball_gone_ns(replace(scene, ground_box_px=(20, 20, 120, 120))) is None


def test_too_few_frames_tell_nothing() -> None:
    scene = filmed(RETURN_NS + 20_000_000)
    early = replace(scene, greys=scene.greys[:20], stamps_ns=scene.stamps_ns[:20])
    assert ball_gone_ns(early) is None


def test_a_balls_size_is_the_rules() -> None:
    """At least 42.67 mm across (Equipment Rules of Golf; secondary)."""
    assert pytest.approx(0.04267) == BALL_DIAMETER_M
