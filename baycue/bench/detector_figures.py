"""From tracks to figures: error, lag, jitter and each landmark's noise; no file, no chance."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.bench.detector_tracks import JOINTS, Clock, FloatArray, Tracks

Mask = NDArray[np.bool_]
During = Callable[[Tracks], Mask]
"""The (F,) frames of a swing that count."""

SETTLED_S = 0.2
"""The tracker's first frames are left out of its jitter."""
SHIFTS_S = np.arange(-60, 61) * 1e-3
MOVES_LEAST = 0.02
"""RMS way of a joint about its own middle, of stature, below which a lag means nothing."""


@dataclass(frozen=True, slots=True)
class JointFigures:
    """How one joint was followed; percentages are of the golfer's stature in the picture.

    Over the downswing, top to impact: ``rms`` and ``median`` error, ``lag_ms`` the shift in
    time that best aligns the seen track with the true one, a constant offset apart (positive:
    late; NaN for a joint that hardly moves), ``missed`` the share of frames with no body.
    ``jitter``: spread about the mean while the golfer stands still, of one axis.
    """

    rms_percent: float
    median_percent: float
    rms_px: float
    lag_ms: float
    jitter_percent: float
    jitter_px: float
    missed: float


@dataclass(frozen=True, slots=True)
class AxisNoise:
    """Error of one joint along one axis, percent of stature.

    ``bias``: mean over swings.  ``between``: standard deviation of the swings' own means,
    which a body and a camera keep through a swing.  ``within``: about those means.
    """

    bias: float
    between: float
    within: float


@dataclass(frozen=True, slots=True)
class JointNoise:
    """``along``: picture x, + toward the target.  ``up``: picture y, + up."""

    along: AxisNoise
    up: AxisNoise


@dataclass(frozen=True, slots=True)
class DetectorFigures:
    """All figures of some swings: followed by clock and joint, noise by clock, part and joint."""

    swings: int
    followed: dict[Clock, dict[str, JointFigures]]
    noise: dict[Clock, dict[str, dict[str, JointNoise]]]


def downswing(tracks: Tracks) -> Mask:
    """From top to impact."""
    return np.asarray((tracks.times_s >= tracks.top_s) & (tracks.times_s <= tracks.impact_s))


def still(tracks: Tracks) -> Mask:
    """At address, the golfer not moving."""
    return np.asarray((tracks.times_s > SETTLED_S) & (tracks.times_s < tracks.still_until_s))


PARTS: dict[str, During] = {"address": still, "downswing": downswing}


def detector_figures(swings: Sequence[Tracks]) -> DetectorFigures:
    """Every figure of at least one swing."""
    return DetectorFigures(
        swings=len(swings),
        followed={
            clock: {name: _followed(swings, clock, j) for j, name in enumerate(JOINTS)}
            for clock in Clock
        },
        noise={
            clock: {
                part: {name: joint_noise(swings, clock, j, at) for j, name in enumerate(JOINTS)}
                for part, at in PARTS.items()
            }
            for clock in Clock
        },
    )


def _followed(swings: Sequence[Tracks], clock: Clock, joint: int) -> JointFigures:
    errors = [_errors_px(tracks, clock, joint, downswing) for tracks in swings]
    off_px = np.concatenate([np.linalg.norm(e, axis=1) for e in errors])
    share = np.concatenate(
        [np.linalg.norm(e, axis=1) / t.stature_px for e, t in zip(errors, swings, strict=True)]
    )
    return JointFigures(
        rms_percent=100 * _rms(share),
        median_percent=100 * (float(np.median(share)) if len(share) else float("nan")),
        rms_px=_rms(off_px),
        lag_ms=1e3 * lag_s(swings, clock, joint),
        jitter_percent=100 * _jitter(swings, clock, joint, lambda t: 1 / t.stature_px),
        jitter_px=_jitter(swings, clock, joint, lambda _: 1.0),
        missed=1 - len(off_px) / max(sum(int(downswing(t).sum()) for t in swings), 1),
    )


def _errors_px(tracks: Tracks, clock: Clock, joint: int, at: During) -> FloatArray:
    """(n, 2) seen less true in the frames of a part in which a body was seen."""
    errors = (tracks.seen_px[clock] - tracks.true_px)[at(tracks), joint]
    return np.asarray(errors[np.isfinite(errors).all(axis=1)])


def _rms(values: FloatArray) -> float:
    return float(np.sqrt(np.mean(values**2))) if values.size else float("nan")


def _jitter(
    swings: Sequence[Tracks], clock: Clock, joint: int, per_px: Callable[[Tracks], float]
) -> float:
    apart = [np.zeros((0, 2))]
    for tracks in swings:
        errors = _errors_px(tracks, clock, joint, still)
        if len(errors):
            apart.append((errors - errors.mean(axis=0)) * per_px(tracks))
    return _rms(np.concatenate(apart))


def lag_s(swings: Sequence[Tracks], clock: Clock, joint: int) -> float:
    """How late a joint is seen in the downswing, s, over all swings together; NaN if it rests.

    The shift with the least squares left, a constant offset of each swing apart, put between
    the tried millisecond shifts by a parabola.  A shift at the end of those tried is NaN.
    """
    pairs = [_seen_and_shifted(tracks, clock, joint) for tracks in swings]
    pairs = [(seen, shifted) for seen, shifted in pairs if len(seen) > 2]
    if not pairs or _moves(pairs) < MOVES_LEAST:
        return float("nan")
    left = np.sum([_left_over(seen, shifted) for seen, shifted in pairs], axis=0)
    best = int(np.argmin(left))
    if not 0 < best < len(SHIFTS_S) - 1:
        return float("nan")
    before, here, after = left[best - 1], left[best], left[best + 1]
    between = 0.5 * (before - after) / (before - 2 * here + after)
    return float(SHIFTS_S[best] + between * (SHIFTS_S[1] - SHIFTS_S[0]))


def _seen_and_shifted(tracks: Tracks, clock: Clock, joint: int) -> tuple[FloatArray, FloatArray]:
    """(n, 2) seen and (shifts, n, 2) true, later by each shift; in statures."""
    seen = tracks.seen_px[clock][:, joint]
    counts = downswing(tracks) & np.isfinite(seen).all(axis=1)
    at_s = tracks.times_s[counts] - SHIFTS_S[:, None]
    true = [np.interp(at_s, tracks.fine_s, tracks.fine_px[:, joint, axis]) for axis in (0, 1)]
    return seen[counts] / tracks.stature_px, np.stack(true, axis=-1) / tracks.stature_px


def _left_over(seen: FloatArray, shifted: FloatArray) -> FloatArray:
    apart = seen - shifted
    apart = apart - apart.mean(axis=1, keepdims=True)
    return np.asarray((apart**2).sum(axis=(1, 2)))


def _moves(pairs: Sequence[tuple[FloatArray, FloatArray]]) -> float:
    unshifted = len(SHIFTS_S) // 2
    ways = [shifted[unshifted] - shifted[unshifted].mean(axis=0) for _, shifted in pairs]
    return float(np.sqrt(np.mean(np.concatenate([(way**2).sum(axis=1) for way in ways]))))


def joint_noise(swings: Sequence[Tracks], clock: Clock, joint: int, at: During) -> JointNoise:
    """A joint's noise in one part of the swings; each swing weighs the same."""
    errors = [
        100 * _errors_px(t, clock, joint, at) * (t.toward_target, -1.0) / t.stature_px
        for t in swings
    ]
    seen = [e for e in errors if len(e)]
    return JointNoise(*(_axis_noise([e[:, axis] for e in seen]) for axis in (0, 1)))


def _axis_noise(swings: Sequence[FloatArray]) -> AxisNoise:
    if not swings:
        return AxisNoise(*[float("nan")] * 3)
    means = np.array([float(errors.mean()) for errors in swings])
    spread = [float(errors.var()) for errors in swings]
    between = float(means.std(ddof=1)) if len(means) > 1 else float("nan")
    return AxisNoise(float(means.mean()), between, float(np.sqrt(np.mean(spread))))
