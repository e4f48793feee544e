"""A camera's shots whose pictures tell their number."""

from collections.abc import Iterable, Iterator
from itertools import count

import cv2
import numpy as np

from baycue.capture.ring import Bounds, Ring
from baycue.capture.shot import Shot
from tests.conftest import grey_with_number

ROOMY = Bounds(seconds=60.0, total_bytes=1 << 30)


def jpeg_of(number: int, width_px: int = 64, height_px: int = 48) -> bytes:
    """A JPEG whose brightness tells its number."""
    good, data = cv2.imencode(".jpg", grey_with_number(number, width_px, height_px))
    assert good
    return bytes(np.asarray(data).tobytes())


def uneven_stamps_ns(shots: int, since_ns: int = 5_000_000_123) -> list[int]:
    """About 60 a second, up to 4 ms late each."""
    late = np.random.default_rng(3).integers(0, 4_000_000, shots)
    return [since_ns + round(k * 1e9 / 60) + int(late[k]) for k in range(shots)]


def jpeg_shots(stamps_ns: Iterable[int]) -> Iterator[Shot]:
    """A packed shot for each stamp."""
    return (Shot(k, s, jpeg_of(k)) for k, s in zip(count(), stamps_ns, strict=False))


def ring_of(shots: Iterable[Shot]) -> Ring[Shot]:
    """A camera's ring with these shots in it."""
    ring: Ring[Shot] = Ring(ROOMY)
    for shot in shots:
        ring.put(shot)
    return ring
