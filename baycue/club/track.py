"""The shaft's direction through one swing: background, unrolling, search, close look."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from baycue.club.background import (
    FloatPicture,
    GreyPicture,
    StillBackground,
    difference,
    passing_difference,
    still_background,
)
from baycue.club.evidence import angular_evidence
from baycue.club.path import PathPriors, ShaftPath, best_path
from baycue.club.reading import Evidence, ShaftReading
from baycue.club.refine import Expectation, LocalFit, fit_near
from baycue.club.unwrap import Reach, unroll

FloatArray = NDArray[np.float64]

_INNER_BODIES, _OUTER_BODIES = 0.17, 0.58
_PATH_SIGMA_DEG = 6.0
_LEAST_GAIN, _SOME_GAIN = 6.0, 1.0
_CLEAR_GAIN = 15.0
_FAST_DEG = 12.0
_FEWEST_CLEAR = 3
_FAST_ARM_DEG_S = 150.0
_AROUND_NS = (-105_000_000, -70_000_000, -55_000_000, 55_000_000, 70_000_000, 105_000_000)
_NEAREST_NS = 40_000_000
"""By then a club coming down has turned by 60 degrees or so."""


@dataclass(frozen=True, slots=True)
class ClubScene:
    """One swing as the club room sees it: N frames from address to just after impact.

    ``greys``: N still-camera pictures (h, w).  ``hands_px``: (N, 2) in those pictures.
    ``arm_deg``: (N,) lead-arm angle counted as the shaft's.  ``body_px``: ankle to hip to
    shoulder.  ``turning``: (N,) -1 going back, +1 coming down, 0 near the top.
    """

    stamps_ns: tuple[int, ...]
    frame_indices: tuple[int, ...]
    greys: Sequence[GreyPicture]
    hands_px: FloatArray
    arm_deg: FloatArray
    body_px: float
    turning: NDArray[np.int8]
    target_on_right: bool

    @property
    def frame_s(self) -> float:
        """The usual time between frames, s."""
        return float(np.median(np.diff(self.stamps_ns))) * 1e-9

    @property
    def arm_rate_deg_s(self) -> FloatArray:
        """How fast the lead arm turns, (N,)."""
        return np.asarray(np.gradient(self.arm_deg, np.array(self.stamps_ns) * 1e-9))


def track_shaft(scene: ClubScene) -> tuple[ShaftReading, ...]:
    """A reading for every frame; frames without evidence of their own say PATH."""
    reach = Reach(_INNER_BODIES * scene.body_px, _OUTER_BODIES * scene.body_px)
    background = still_background(_moving_part(scene))
    unrolled = [
        unroll(_what_is_new(scene, k, background), hands, reach, scene.target_on_right)
        for k, hands in enumerate(scene.hands_px)
    ]
    evidence = np.stack([angular_evidence(u) for u in unrolled]).astype(np.float64)
    priors = PathPriors(scene.arm_deg, scene.turning)
    path = best_path(evidence, priors, scene.frame_s)
    expected = _expectations(path)
    fits = [fit_near(u, reach, e) for u, e in zip(unrolled, expected, strict=True)]
    fits = _refit_with_shutter(unrolled, reach, expected, fits)
    return tuple(_reading(scene, k, path, fit) for k, fit in enumerate(fits))


def _what_is_new(scene: ClubScene, k: int, background: StillBackground) -> FloatPicture:
    """What one picture shows that the bay does not; where the club is fast, that passes by."""
    around = _moments_around(scene, k)
    if around:
        return passing_difference(scene.greys[k], background, around)
    return difference(scene.greys[k], background)


def _moments_around(scene: ClubScene, k: int) -> list[GreyPicture]:
    """Pictures some hundredths of a second before and after, if the club is fast here."""
    if scene.turning[k] <= 0 or scene.arm_rate_deg_s[k] < _FAST_ARM_DEG_S:
        return []
    gaps_ns = np.array(scene.stamps_ns) - scene.stamps_ns[k]
    wanted = sorted({int(np.argmin(np.abs(gaps_ns - gap))) for gap in _AROUND_NS})
    return [scene.greys[i] for i in wanted if abs(gaps_ns[i]) >= _NEAREST_NS]


def _moving_part(scene: ClubScene) -> Sequence[GreyPicture]:
    """The frames from when the club has left the ball; at rest it would be background."""
    moved = np.abs(scene.hands_px - scene.hands_px[0]).max(axis=1) > 0.12 * scene.body_px
    first = int(np.argmax(moved)) if moved.any() else 0
    return scene.greys[first:]


def _expectations(path: ShaftPath) -> list[Expectation]:
    rates = np.gradient(path.angle_deg)
    return [
        Expectation(float(a), max(_PATH_SIGMA_DEG, 0.15 * abs(float(r))), float(r))
        for a, r in zip(path.angle_deg, rates, strict=True)
    ]


def _refit_with_shutter(
    unrolled: Sequence[FloatPicture],
    reach: Reach,
    expected: Sequence[Expectation],
    fits: Sequence[LocalFit],
) -> list[LocalFit]:
    """Fit the fast frames again, once all of them together have told the shutter time."""
    share = _shutter_share(expected, fits)
    return [
        fit if abs(e.rate_deg) < _FAST_DEG else fit_near(u, reach, replace(e, shutter_share=share))
        for u, e, fit in zip(unrolled, expected, fits, strict=True)
    ]


def _shutter_share(expected: Sequence[Expectation], fits: Sequence[LocalFit]) -> float | None:
    shares = [
        fit.sweep_deg / abs(e.rate_deg)
        for e, fit in zip(expected, fits, strict=True)
        if abs(e.rate_deg) > _FAST_DEG and fit.gain > _CLEAR_GAIN
    ]
    return float(np.median(shares)) if len(shares) >= _FEWEST_CLEAR else None


def _reading(scene: ClubScene, k: int, path: ShaftPath, fit: LocalFit) -> ShaftReading:
    """The close look's answer, or where its gain is small the path's, with a wider spread."""
    if fit.gain < _LEAST_GAIN:
        sigma = 2 * _PATH_SIGMA_DEG if fit.gain > _SOME_GAIN else 4 * _PATH_SIGMA_DEG
        unseen = (float(path.angle_deg[k]), sigma, 0.0, Evidence.PATH)
        return ShaftReading(scene.frame_indices[k], scene.stamps_ns[k], *unseen)
    seen = (fit.angle_deg, fit.sigma_deg, fit.sweep_deg, Evidence.PICTURE)
    return ShaftReading(scene.frame_indices[k], scene.stamps_ns[k], *seen)
