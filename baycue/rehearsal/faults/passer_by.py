"""Somebody from another clip walks into this one, beside the golfer."""

from collections.abc import Sequence
from pathlib import Path

import cv2
import numpy as np

from baycue.capture.frame import Picture
from baycue.capture.recording import RecordingSource

_GOLFERS_PX = slice(460, 820)
"""Columns in which the golfer swings; nothing is put there, for who walks by is behind."""
_DIFFERS = 30
_EVERY = 6


def with_passer_by(clip: Path, other: Path) -> list[Picture]:
    """The clip's pictures with whatever moves at the sides of the other clip."""
    pictures, walks = _pictures(clip), _pictures(other)
    still = np.median(np.stack(walks[::_EVERY]), axis=0).astype(np.uint8)
    return [
        _joined(picture, walk, still)
        for picture, walk in zip(pictures, _as_many(walks, len(pictures)), strict=True)
    ]


def _joined(picture: Picture, walk: Picture, still: Picture) -> Picture:
    moves = (cv2.absdiff(walk, still).max(axis=2) > _DIFFERS).astype(np.uint8)
    whole = cv2.morphologyEx(moves, cv2.MORPH_CLOSE, np.ones((15, 15), np.uint8)) > 0
    whole[:, _GOLFERS_PX] = False
    return np.where(whole[..., None], walk, picture)


def _as_many(walks: Sequence[Picture], count: int) -> list[Picture]:
    return [walks[k % len(walks)] for k in range(count)]


def _pictures(path: Path) -> list[Picture]:
    with RecordingSource(path) as source:
        return [frame.picture_bgr for frame in source]
