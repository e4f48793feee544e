"""What a camera may do wrong, picture by picture."""

import time
from collections.abc import Callable, Iterator
from functools import cache
from itertools import count

import cv2
import numpy as np

from baycue.capture.frame import Picture

Pictures = Iterator[bytes]
Mood = Callable[[Pictures, Callable[[], bool]], Pictures]
"""Turns pictures as they fall due into what is sent, as long as it is asked to go on."""

_WELL_FPS, _SLOW_FPS = 30, 8
_HELD_BACK = 24
_SMALL = (960, 540)


def _well(due: Pictures, goes_on: Callable[[], bool]) -> Pictures:
    # Not ``yield from``, which would close what is due with us.
    return map(bytes, due)


def _stall(due: Pictures, goes_on: Callable[[], bool]) -> Pictures:
    """The connection stays, and nothing comes."""
    while goes_on():
        time.sleep(0.05)
    yield from ()


def _slow(due: Pictures, goes_on: Callable[[], bool]) -> Pictures:
    """8 pictures a second of 30, each in time."""
    for number, jpeg in enumerate(due):
        if number * _SLOW_FPS // _WELL_FPS != (number - 1) * _SLOW_FPS // _WELL_FPS:
            yield jpeg


def _small(due: Pictures, goes_on: Callable[[], bool]) -> Pictures:
    """Another size in the middle of the stream."""
    return map(_shrunk, due)


def _twice(due: Pictures, goes_on: Callable[[], bool]) -> Pictures:
    """Every picture twice, half a frame apart."""
    for jpeg in due:
        yield jpeg
        time.sleep(0.5 / _WELL_FPS)
        yield jpeg


def _frozen(due: Pictures, goes_on: Callable[[], bool]) -> Pictures:
    """The same picture for ever."""
    first = next(due)
    yield first
    for _ in due:
        yield first


def _garbage(due: Pictures, goes_on: Callable[[], bool]) -> Pictures:
    """What looks like a JPEG from outside and holds noise."""
    rng = np.random.default_rng(7)
    for jpeg in due:
        yield jpeg[:2] + rng.integers(0, 255, len(jpeg) - 4, np.uint8).tobytes() + jpeg[-2:]


def _torn(due: Pictures, goes_on: Callable[[], bool]) -> Pictures:
    """Half of each JPEG."""
    for jpeg in due:
        yield jpeg[: len(jpeg) // 2]


def _black(due: Pictures, goes_on: Callable[[], bool]) -> Pictures:
    """A covered lens: black, with a sensor's noise."""
    rng = np.random.default_rng(7)
    for _ in due:
        noise = rng.integers(0, 4, (720, 1280, 3), np.uint8)
        yield _packed(noise)


def _bunched(due: Pictures, goes_on: Callable[[], bool]) -> Pictures:
    """0.8 s of pictures held back, then all at once: their stamps all but repeat, then jump."""
    while True:
        held = [next(due) for _ in range(_HELD_BACK)]
        yield from held


def _hiccup(due: Pictures, goes_on: Callable[[], bool]) -> Pictures:
    """Every third picture lost."""
    for number, jpeg in zip(count(), due, strict=False):
        if number % 3:
            yield jpeg


MOODS: dict[str, Mood] = {
    "well": _well,
    "stall": _stall,
    "slow": _slow,
    "small": _small,
    "twice": _twice,
    "frozen": _frozen,
    "garbage": _garbage,
    "torn": _torn,
    "black": _black,
    "bunched": _bunched,
    "hiccup": _hiccup,
}


@cache
def _shrunk(jpeg: bytes) -> bytes:
    picture = cv2.imdecode(np.frombuffer(jpeg, np.uint8), cv2.IMREAD_COLOR)
    assert picture is not None, "the clip's own JPEGs are whole"
    return _packed(cv2.resize(np.asarray(picture, dtype=np.uint8), _SMALL))


def _packed(picture: Picture | cv2.typing.MatLike) -> bytes:
    return cv2.imencode(".jpg", picture)[1].tobytes()
