"""The shaft's direction through one swing: background, unrolling, search, close look."""

from collections.abc import Hashable, Sequence
from dataclasses import replace
from functools import partial

import numpy as np

from baycue.club.look import Look, look_at, moments_around, settled_count
from baycue.club.memo import ShaftMemo
from baycue.club.path import Forward, PathSearch, ShaftPath, path_to
from baycue.club.reading import Evidence, ShaftReading
from baycue.club.refine import Expectation, LocalFit, fit_from, gains_near, nearby
from baycue.club.scene import ClubScene, FloatArray
from baycue.club.surroundings import Surroundings, surroundings_of

_PATH_SIGMA_DEG = 6.0
_LEAST_GAIN, _SOME_GAIN = 6.0, 1.0
_CLEAR_GAIN = 15.0
_FAST_DEG = 12.0
_FEWEST_CLEAR = 3
_FEWEST_SETTLED = 2
_SHARE_STEP = 0.12
"""Of the shutter's share of a frame's time, in its logarithm: half the spread it is given."""


def track_shaft(scene: ClubScene, memo: ShaftMemo | None = None) -> tuple[ShaftReading, ...]:
    """A reading for every frame; frames without evidence of their own say PATH.

    ``memo``: of the same swing, told before with fewer frames.
    """
    memo = memo or ShaftMemo()
    seen = surroundings_in(scene, memo)
    looks = _looks(scene, len(scene.greys), seen, memo)
    path = path_to(_forward(scene, looks, memo))
    expected = _expectations(path)
    fits = [_fit(look, seen, e, memo) for look, e in zip(looks, expected, strict=True)]
    share = _shutter_share(expected, fits)
    told = [e if abs(e.rate_deg) < _FAST_DEG else replace(e, shutter_share=share) for e in expected]
    fits = [_fit(look, seen, e, memo) for look, e in zip(looks, told, strict=True)]
    return tuple(_reading(scene, k, path, fit) for k, fit in enumerate(fits))


def settle_shaft(scene: ClubScene, memo: ShaftMemo, guessed: int = 0) -> None:
    """Work out what later frames will not change, for ``track_shaft`` to recall.

    ``scene``: a swing as far as it has come.  ``guessed``: so many frames at its end are taken
    for its last, and their hands are not known yet; what they alone wait for is worked out too.
    """
    count = len(scene.greys) - guessed if guessed else settled_count(scene)
    if count < _FEWEST_SETTLED:
        return
    seen = surroundings_in(scene, memo)
    looks = _looks(scene, count, seen, memo)
    expected = _expectations(path_to(_forward(scene, looks, memo)))
    for look, each in zip(looks, expected, strict=True):
        _fit(look, seen, each, memo)


def surroundings_in(scene: ClubScene, memo: ShaftMemo) -> Surroundings:
    """What the club is seen against; worked out once a swing."""
    key = (scene.stamps_ns[scene.going_back], scene.body_px)
    return memo.surroundings.recall(key, lambda: surroundings_of(scene))


def _looks(scene: ClubScene, count: int, seen: Surroundings, memo: ShaftMemo) -> list[Look]:
    """Looks at the first ``count`` frames."""
    looks = []
    for k, around in enumerate(moments_around(scene)[:count]):
        key: Hashable = (scene.stamps_ns[k], tuple(scene.hands_px[k]), around, seen)
        looks.append(memo.looks.recall(key, partial(look_at, scene, k, around, seen)))
    return looks


def _forward(scene: ClubScene, looks: Sequence[Look], memo: ShaftMemo) -> Forward:
    """The search through the frames looked at; from where it was left, if there is a memo."""
    search = PathSearch(scene.frame_s)
    reached: Forward | None = None
    for look, arm_deg, turning in zip(looks, scene.arm_deg, scene.turning, strict=False):
        step = partial(search.extended, reached, look.evidence, float(arm_deg), int(turning))
        reached = memo.paths.recall((search.frame_s, reached, look, arm_deg, turning), step)
    assert reached is not None, "a swing has frames"
    return reached


def _expectations(path: ShaftPath) -> list[Expectation]:
    rates = np.gradient(path.angle_deg)
    return [
        Expectation(float(a), max(_PATH_SIGMA_DEG, 0.15 * abs(float(r))), float(r))
        for a, r in zip(path.angle_deg, rates, strict=True)
    ]


def _fit(look: Look, seen: Surroundings, expected: Expectation, memo: ShaftMemo) -> LocalFit:
    gains = _gains(look, seen, expected, memo)
    return memo.fits.recall((look, expected), lambda: fit_from(gains, expected))


def _gains(look: Look, seen: Surroundings, expected: Expectation, memo: ShaftMemo) -> FloatArray:
    """What the picture says, worked out once for expectations that are alike."""
    near = nearby(expected)
    work = partial(gains_near, look.unrolled, seen.reach, near)
    return memo.gains.recall((look, near), work)


def _shutter_share(expected: Sequence[Expectation], fits: Sequence[LocalFit]) -> float | None:
    """The part of a frame's time that the shutter is open, told by all fast frames together."""
    shares = [
        fit.sweep_deg / abs(e.rate_deg)
        for e, fit in zip(expected, fits, strict=True)
        if abs(e.rate_deg) > _FAST_DEG and fit.gain > _CLEAR_GAIN
    ]
    if len(shares) < _FEWEST_CLEAR:
        return None
    return float(np.exp(round(np.log(np.median(shares)) / _SHARE_STEP) * _SHARE_STEP))


def _reading(scene: ClubScene, k: int, path: ShaftPath, fit: LocalFit) -> ShaftReading:
    """The close look's answer, or where its gain is small the path's, with a wider spread."""
    if fit.gain < _LEAST_GAIN:
        sigma = 2 * _PATH_SIGMA_DEG if fit.gain > _SOME_GAIN else 4 * _PATH_SIGMA_DEG
        unseen = (float(path.angle_deg[k]), sigma, 0.0, Evidence.PATH)
        return ShaftReading(scene.frame_indices[k], scene.stamps_ns[k], *unseen)
    seen = (fit.angle_deg, fit.sigma_deg, fit.sweep_deg, Evidence.PICTURE)
    return ShaftReading(scene.frame_indices[k], scene.stamps_ns[k], *seen)
