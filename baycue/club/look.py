"""One picture, unrolled about the hands, and what it says of the shaft's direction."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from baycue.club.background import FloatPicture, difference, passing_difference
from baycue.club.evidence import angular_evidence
from baycue.club.scene import ClubScene, FloatArray
from baycue.club.surroundings import Surroundings
from baycue.club.unwrap import Reach, unroll

_FAST_ARM_DEG_S = 150.0
_AROUND_NS = (-105_000_000, -70_000_000, -55_000_000, 55_000_000, 70_000_000, 105_000_000)
_NEAREST_NS = 40_000_000
"""By then a club coming down has turned by 60 degrees or so."""
_FEW_S = 0.025
"""Where frames follow each other as fast as this, those before the last one tell enough of what
stands still, and nothing but its own look waits for the last."""


@dataclass(frozen=True, slots=True, eq=False)
class Look:
    """``unrolled``: (ROW_COUNT, columns), in flickers; ``evidence``: as ``angular_evidence``."""

    unrolled: FloatPicture
    evidence: FloatArray


def look_at(scene: ClubScene, k: int, around: tuple[int, ...], seen: Surroundings) -> Look:
    """Look at frame ``k``; ``around``: its ``moments_around``.

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
    return Look(unrolled, angular_evidence(unrolled, seen.loudest_smear).astype(np.float64))


def _about(
    hands_px: FloatArray, reach: Reach, shape: tuple[int, ...]
) -> tuple[tuple[slice, slice], FloatArray]:
    """The part of the picture within reach of the hands, and where they are in it."""
    size = np.array([shape[1], shape[0]])
    corner = np.clip(np.floor(hands_px - reach.outer_px - 1), 0, size - 1).astype(int)
    end = np.clip(np.ceil(hands_px + reach.outer_px + 2), corner + 1, size).astype(int)
    return (slice(corner[1], end[1]), slice(corner[0], end[0])), hands_px - corner


def moments_around(scene: ClubScene, one_more: bool = False) -> list[tuple[int, ...]]:
    """For each frame those some hundredths of a second before and after, if its club is fast.

    At 40 frames a second and more the last is none of them; ``one_more``: it has not come yet.
    """
    stamps_ns = np.array(scene.stamps_ns)
    others_ns = stamps_ns if one_more else stamps_ns[: len(stamps_ns) - _left_out(scene)]
    gaps_ns = others_ns[None, :] - stamps_ns[:, None]
    nearest = [np.abs(gaps_ns - gap).argmin(axis=1) for gap in _AROUND_NS]
    return [
        tuple(int(i) for i in sorted({*wanted}) if abs(gaps_ns[k, i]) >= _NEAREST_NS)
        if fast
        else ()
        for k, (fast, *wanted) in enumerate(zip(_is_fast(scene), *nearest, strict=True))
    ]


def settled_count(scene: ClubScene) -> int:
    """So many frames, from the first, will look the same when later ones have come as usual.

    None as long as the club is about the top, for the bay is known from the way back.
    """
    if not (scene.turning > 0).any():
        return 0
    # What is wanted lies nearer to the last than to the one that comes a frame's time later.
    reached_ns = scene.stamps_ns[-1] + (0.5 - _left_out(scene)) * scene.frame_s * 1e9
    late = np.array(scene.stamps_ns) > reached_ns - _AROUND_NS[-1]
    waiting = np.flatnonzero(late & _is_fast(scene))
    return int(waiting[0]) if len(waiting) else len(late)


def _left_out(scene: ClubScene) -> int:
    """So many frames at the end are looked at only by themselves."""
    return int(scene.frame_s < _FEW_S and len(scene.stamps_ns) > 1)


def _is_fast(scene: ClubScene) -> NDArray[np.bool_]:
    return (scene.turning > 0) & (scene.arm_rate_deg_s >= _FAST_ARM_DEG_S)
