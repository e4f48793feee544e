"""The likeliest way the shaft turned through a swing, found over all frames at once.

A Viterbi search over shaft angle and turning rate: evidence from each picture at the
smear widths that the rate allows, against a price for changing the rate abruptly and
for a wrist that no wrist can make.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.club.evidence import WIDTHS_DEG

FloatArray = NDArray[np.float64]

LOWEST_DEG, HIGHEST_DEG = -330, 170
_ANGLES_DEG = np.arange(LOWEST_DEG, HIGHEST_DEG + 1)
_RATE_STEPS = 41
_FASTEST_DEG_PER_S = 3000.0
_FASTEST_BACK_DEG_PER_S = 900.0
_USUAL_DEG_PER_S2 = 14000.0
_SLOWEST_STRIKE_DEG_PER_S = 1300.0
_NEAR_BALL_DEG = 95
_STRIKE_PRICE = 12.0
_WRIST_TRAIL_DEG, _WRIST_LEAD_BACK_DEG, _WRIST_LEAD_THROUGH_DEG = 150.0, 45.0, 145.0
_WRIST_SIGMA_DEG = 10.0


@dataclass(frozen=True, slots=True)
class PathPriors:
    """What is known besides the pictures, per frame ((N,) each).

    ``arm_deg``: lead-arm angle, counted as the shaft's; ``turning``: -1 going back, +1
    coming down, 0 either way.
    """

    arm_deg: FloatArray
    turning: NDArray[np.int8]


@dataclass(frozen=True, slots=True)
class ShaftPath:
    """Angle, deg, and rate, deg a frame, per frame ((N,) each), and the path's total score."""

    angle_deg: FloatArray
    rate_deg: FloatArray
    score: float


def rate_grid_deg(frame_s: float) -> FloatArray:
    """The turning rates searched, deg a frame, whole degrees."""
    low = -_FASTEST_BACK_DEG_PER_S * frame_s
    high = _FASTEST_DEG_PER_S * frame_s
    step = max(1.0, np.ceil((high - low) / _RATE_STEPS))
    return np.asarray(np.arange(np.floor(low / step), np.ceil(high / step) + 1) * step)


def best_path(evidence: FloatArray, priors: PathPriors, frame_s: float) -> ShaftPath:
    """The best path through ``evidence`` (N, len(WIDTHS_DEG), 360)."""
    rates = rate_grid_deg(frame_s)
    widest = _widest_smear(rates)
    columns = np.mod(_ANGLES_DEG, 360)
    prices = _rate_change_prices(rates, frame_s)
    score = _start_scores(len(rates))
    back_pointers = []
    for k in range(len(evidence)):
        local = np.maximum.accumulate(evidence[k], axis=0)[widest][:, columns]
        local = (
            local
            - _wrist_price(priors.arm_deg[k], priors.turning[k])
            - _direction_price(rates, priors.turning[k])
        )
        local = local - _strike_price(rates, priors.turning[k], frame_s)
        if k:
            score, pointer = _advance(score, rates, prices)
            back_pointers.append(pointer)
        score = score + local
    return _trace_back(score, back_pointers, rates)


def _widest_smear(rates_deg: FloatArray) -> NDArray[np.intp]:
    """For each rate the widest smear that a shutter open all the time could draw."""
    widest = np.searchsorted(WIDTHS_DEG, np.abs(rates_deg) + WIDTHS_DEG[0], side="right") - 1
    return np.maximum(widest, 0)


def _rate_change_prices(rates: FloatArray, frame_s: float) -> FloatArray:
    """Price of stepping the rate by -n to +n grid steps; n reaches thrice the usual change."""
    usual_change = _USUAL_DEG_PER_S2 * frame_s**2 + 0.5
    step = rates[1] - rates[0]
    most = min(int(np.ceil(3 * usual_change / step)), len(rates) - 1)
    return np.asarray(0.5 * (np.arange(-most, most + 1) * step / usual_change) ** 2)


def _start_scores(rate_count: int) -> FloatArray:
    """The club starts at the ball: within some 35 degrees of straight down."""
    price = 0.5 * (np.maximum(np.abs(_ANGLES_DEG) - 25.0, 0.0) / 5.0) ** 2
    return np.tile(-price, (rate_count, 1))


def _wrist_price(arm_deg: float, turning: np.int8) -> FloatArray:
    """The shaft trails the lead arm by no more than a full hinge; it leads only past the ball."""
    wrist = _ANGLES_DEG - arm_deg
    most_lead = _WRIST_LEAD_THROUGH_DEG if turning > 0 else _WRIST_LEAD_BACK_DEG
    beyond = np.maximum(-_WRIST_TRAIL_DEG - wrist, 0.0) + np.maximum(wrist - most_lead, 0.0)
    return np.asarray(0.5 * (beyond / _WRIST_SIGMA_DEG) ** 2)


def _direction_price(rates: FloatArray, turning: np.int8) -> FloatArray:
    wrong = np.maximum(-rates * turning, 0.0)
    return np.asarray(2.0 * np.minimum(wrong / 3.0, 2.0))[:, None]


def _strike_price(rates: FloatArray, turning: np.int8, frame_s: float) -> FloatArray:
    """Coming down, a club that dawdles anywhere near the ball strikes no ball."""
    if turning <= 0:
        return np.zeros((len(rates), len(_ANGLES_DEG)))
    missing = np.maximum(1.0 - rates / (_SLOWEST_STRIKE_DEG_PER_S * frame_s), 0.0)
    near_ball = np.abs(_ANGLES_DEG) < _NEAR_BALL_DEG
    return np.asarray(_STRIKE_PRICE * missing[:, None] * near_ball)


def _advance(
    score: FloatArray, rates: FloatArray, prices: FloatArray
) -> tuple[FloatArray, NDArray[np.int16]]:
    """One frame on: the best earlier rate for each (rate, angle), and which it was."""
    span = len(prices) // 2
    padded = np.pad(score, ((span, span), (0, 0)), constant_values=-np.inf)
    options = np.stack([padded[d : d + len(rates)] - price for d, price in enumerate(prices)])
    choice = options.argmax(axis=0)
    best = np.take_along_axis(options, choice[None], axis=0)[0]
    moved = np.full_like(best, -np.inf)
    pointer = np.zeros(best.shape, dtype=np.int16)
    for r, rate in enumerate(rates.astype(int)):
        to, source = _shifted(rate, best.shape[1])
        moved[r, to] = best[r, source]
        pointer[r, to] = choice[r, source] - span + r
    return moved, pointer


def _shifted(rate: int, count: int) -> tuple[slice, slice]:
    if rate >= 0:
        return slice(rate, count), slice(0, count - rate)
    return slice(0, count + rate), slice(-rate, count)


def _trace_back(
    score: FloatArray, pointers: list[NDArray[np.int16]], rates: FloatArray
) -> ShaftPath:
    r, a = (int(i) for i in np.unravel_index(int(np.argmax(score)), score.shape))
    total = float(score[r, a])
    path = [(r, a)]
    for pointer in reversed(pointers):
        earlier = int(pointer[r, a])
        a, r = a - int(rates[r]), earlier
        path.append((r, a))
    path.reverse()
    picked = np.array(path)
    return ShaftPath(_ANGLES_DEG[picked[:, 1]].astype(float), rates[picked[:, 0]], total)
