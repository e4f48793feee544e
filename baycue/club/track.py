"""The shaft's direction through one swing: background, unrolling, search, close look."""

from collections.abc import Hashable, Sequence
from dataclasses import replace
from functools import partial

import numpy as np
from numpy.typing import NDArray

from baycue.club.evidence import WIDTHS_DEG
from baycue.club.gains import Nearby, gains_near
from baycue.club.look import Look, look_at, moments_around, settled_count
from baycue.club.memo import ShaftMemo
from baycue.club.path import Forward, PathSearch, ShaftPath, path_to
from baycue.club.reading import Evidence, ShaftReading
from baycue.club.refine import Expectation, LocalFit, fit_from, nearby
from baycue.club.scene import ClubScene, FloatArray
from baycue.club.surroundings import Surroundings, surroundings_of

_MOST_LOST = 3
"""Frames in a row; who misses more of a downswing has not seen it."""
_NOTHING_SEEN = np.zeros((len(WIDTHS_DEG), 360))
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
    path = _path(scene, looks, memo)
    expected = _expectations(scene, path, len(looks))
    fits = [_fit(look, seen, e, memo) for look, e in zip(looks, expected, strict=True)]
    share = _shutter_share(expected, fits)
    told = [e if abs(e.rate_deg) < _FAST_DEG else replace(e, shutter_share=share) for e in expected]
    fits = [_fit(look, seen, e, memo) for look, e in zip(looks, told, strict=True)]
    path_deg = path.angle_deg[_places(scene, len(fits))]
    return tuple(_reading(scene, k, float(path_deg[k]), fit) for k, fit in enumerate(fits))


def settle_shaft(scene: ClubScene, memo: ShaftMemo, guessed: int = 0, ends: bool = False) -> None:
    """Work out what later frames will not change, for ``track_shaft`` to recall.

    ``scene``: a swing as far as it has come.  ``guessed``: of so many frames at its end the hands
    are not known yet; what waits for their pictures alone is worked out.  ``ends``: they are taken
    for all that the others wait for.
    """
    known = len(scene.greys) - guessed
    count = known if ends else min(known, settled_count(scene))
    # The surroundings follow from all of the way back, so that nothing of it may be a guess.
    if count < _FEWEST_SETTLED or known < scene.going_back.stop:
        return
    seen = surroundings_in(scene, memo)
    looks = _looks(scene, count, seen, memo, one_more=ends)
    expected = _expectations(scene, _path(scene, looks, memo), count)
    for look, each in zip(looks, expected, strict=True):
        _fit(look, seen, each, memo)


def surroundings_in(scene: ClubScene, memo: ShaftMemo) -> Surroundings:
    """What the club is seen against; worked out once a swing."""
    key = (scene.stamps_ns[scene.going_back], scene.body_px)
    return memo.surroundings.recall(key, lambda: surroundings_of(scene))


def _looks(
    scene: ClubScene, count: int, seen: Surroundings, memo: ShaftMemo, one_more: bool = False
) -> list[Look]:
    """Looks at the first ``count`` frames."""
    looks = []
    for k, around in enumerate(moments_around(scene, one_more)[:count]):
        key: Hashable = (scene.stamps_ns[k], tuple(scene.hands_px[k]), around, seen)
        looks.append(memo.looks.recall(key, partial(look_at, scene, k, around, seen)))
    return looks


def _path(scene: ClubScene, looks: Sequence[Look], memo: ShaftMemo) -> ShaftPath:
    """The likeliest path through the frames looked at, and through those lost between them."""
    search, lost = PathSearch(scene.frame_s), _lost_before(scene, len(looks))
    reached: Forward | None = None
    for k, look in enumerate(looks):
        arm_deg, turning = float(scene.arm_deg[k]), int(scene.turning[k])
        for missing in range(lost[k], 0, -1):
            share = missing / (lost[k] + 1)
            arm_then = share * float(scene.arm_deg[k - 1]) + (1 - share) * arm_deg
            step = partial(search.extended, reached, _NOTHING_SEEN, arm_then, turning)
            reached = memo.paths.recall((search.frame_s, reached, None, arm_then, turning), step)
        step = partial(search.extended, reached, look.evidence, arm_deg, turning)
        reached = memo.paths.recall((search.frame_s, reached, look, arm_deg, turning), step)
    assert reached is not None, "a swing has frames"
    return path_to(reached)


def _lost_before(scene: ClubScene, count: int) -> list[int]:
    """How many frames the camera lost before each; the club went on turning meanwhile."""
    gaps_s = np.diff(scene.stamps_ns[:count]) * 1e-9
    lost = np.clip(np.round(gaps_s / scene.frame_s) - 1, 0, _MOST_LOST)
    return [0, *lost.astype(int).tolist()]


def _places(scene: ClubScene, count: int) -> NDArray[np.intp]:
    """Where in the path the frames stand that were not lost."""
    return np.asarray(np.arange(count) + np.cumsum(_lost_before(scene, count)), dtype=np.intp)


def _expectations(scene: ClubScene, path: ShaftPath, count: int) -> list[Expectation]:
    places = _places(scene, count)
    rates = np.gradient(path.angle_deg)
    return [
        Expectation(float(a), max(_PATH_SIGMA_DEG, 0.15 * abs(float(r))), float(r))
        for a, r in zip(path.angle_deg[places], rates[places], strict=True)
    ]


def _fit(look: Look, seen: Surroundings, expected: Expectation, memo: ShaftMemo) -> LocalFit:
    def work() -> LocalFit:
        return fit_from(_gains(look, seen, nearby(expected), memo), expected)

    return memo.fits.recall((look, expected), work)


def _gains(look: Look, seen: Surroundings, near: Nearby, memo: ShaftMemo) -> FloatArray:
    """What the picture says, worked out once for expectations that are alike."""
    work = partial(gains_near, look.unrolled, seen.reach, near, seen.loudest_smear)
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


def _reading(scene: ClubScene, k: int, path_deg: float, fit: LocalFit) -> ShaftReading:
    """The close look's answer, or where its gain is small the path's, with a wider spread."""
    if fit.gain < _LEAST_GAIN:
        sigma = 2 * _PATH_SIGMA_DEG if fit.gain > _SOME_GAIN else 4 * _PATH_SIGMA_DEG
        unseen = (path_deg, sigma, 0.0, Evidence.PATH)
        return ShaftReading(scene.frame_indices[k], scene.stamps_ns[k], *unseen)
    seen = (fit.angle_deg, fit.sigma_deg, fit.sweep_deg, Evidence.PICTURE)
    return ShaftReading(scene.frame_indices[k], scene.stamps_ns[k], *seen)
