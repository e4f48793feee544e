"""One picture, unrolled about the hands, and what it says of the shaft's direction."""

from dataclasses import dataclass, replace

import numpy as np

from baycue.club.background import FloatPicture, difference, passing_difference
from baycue.club.evidence import angular_evidence
from baycue.club.scene import ClubScene, FloatArray
from baycue.club.surroundings import Surroundings
from baycue.club.unwrap import Reach, unroll

_FAST_ARM_DEG_S = 150.0
_AROUND_NS = (-105_000_000, -70_000_000, -55_000_000, 55_000_000, 70_000_000, 105_000_000)
_NEAREST_NS = 40_000_000
"""By then a club coming down has turned by 60 degrees or so."""


@dataclass(frozen=True, slots=True, eq=False)
class Look:
    """``unrolled``: (ROW_COUNT, columns), in flickers; ``evidence``: as ``angular_evidence``."""

    unrolled: FloatPicture
    evidence: FloatArray


def look_at(scene: ClubScene, k: int, around: tuple[int, ...], seen: Surroundings) -> Look:
    """Look at frame ``k``; ``around`` as ``moments_around`` gives it.

    Where the club is fast, only what passes by counts.
    """
    part, hands = _about(scene.hands_px[k], seen.reach, scene.greys[k].shape)
    grey, bay = (
        scene.greys[k][part],
        replace(seen.background, picture=seen.background.picture[part]),
    )
    near = [scene.greys[i][part] for i in around]
    new = passing_difference(grey, bay, near) if near else difference(grey, bay)
    unrolled = unroll(new, hands, seen.reach, scene.target_on_right)
    return Look(unrolled, angular_evidence(unrolled).astype(np.float64))


def _about(
    hands_px: FloatArray, reach: Reach, shape: tuple[int, ...]
) -> tuple[tuple[slice, slice], FloatArray]:
    """The part of the picture within reach of the hands, and where they are in it."""
    size = np.array([shape[1], shape[0]])
    corner = np.clip(np.floor(hands_px - reach.outer_px - 1), 0, size - 1).astype(int)
    end = np.clip(np.ceil(hands_px + reach.outer_px + 2), corner + 1, size).astype(int)
    return (slice(corner[1], end[1]), slice(corner[0], end[0])), hands_px - corner


def moments_around(scene: ClubScene, k: int) -> tuple[int, ...]:
    """Frames some hundredths of a second before and after, if the club is fast in frame ``k``."""
    if scene.turning[k] <= 0 or scene.arm_rate_deg_s[k] < _FAST_ARM_DEG_S:
        return ()
    gaps_ns = np.array(scene.stamps_ns) - scene.stamps_ns[k]
    wanted = sorted({int(np.argmin(np.abs(gaps_ns - gap))) for gap in _AROUND_NS})
    return tuple(i for i in wanted if abs(gaps_ns[i]) >= _NEAREST_NS)
