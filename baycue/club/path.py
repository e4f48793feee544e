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
_COLUMNS = np.mod(_ANGLES_DEG, 360)
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


@dataclass(frozen=True, slots=True, eq=False)
class Forward:
    """The search as far as some frame.

    ``score``: (rates, angles) of the best path to each; ``prices``: of changing the rate by -n to
    +n places in ``rates_deg``.
    """

    rates_deg: FloatArray
    prices: FloatArray
    score: FloatArray
    before: "Forward | None"

    def came_from(self, rate: int, angle: int) -> tuple[int, int] | None:
        """The places in ``before``'s score that the best path to these here came through."""
        if self.before is None:
            return None
        angle, most = angle - int(self.rates_deg[rate]), len(self.prices) // 2
        low, high = max(rate - most, 0), min(rate + most + 1, len(self.rates_deg))
        prices = self.prices[low - rate + most : high - rate + most]
        return low + int(np.argmax(self.before.score[low:high, angle] - prices)), angle


class PathSearch:
    """The search at one frame rate; ``extended`` takes in a frame."""

    def __init__(self, frame_s: float) -> None:
        self.frame_s = frame_s
        self._rates = rate_grid_deg(frame_s)
        self._widest = _widest_smear(self._rates)
        self._prices = _rate_change_prices(self._rates, frame_s)
        self._turns = {
            turning: (
                _direction_price(self._rates, turning),
                _strike_price(self._rates, turning, frame_s),
            )
            for turning in (-1, 0, 1)
        }

    def extended(
        self, before: Forward | None, evidence: FloatArray, arm_deg: float, turning: int
    ) -> Forward:
        """One frame on; ``evidence`` is (len(WIDTHS_DEG), 360), None before the first frame."""
        local = self._local(evidence, arm_deg, turning)
        if before is None:
            start = _start_scores(len(self._rates)) + local
            return Forward(self._rates, self._prices, start, None)
        score = _advance(before.score, self._rates, self._prices)
        score += local
        return Forward(self._rates, self._prices, score, before)

    def _local(self, evidence: FloatArray, arm_deg: float, turning: int) -> FloatArray:
        seen = np.maximum.accumulate(evidence, axis=0)[:, _COLUMNS][self._widest]
        direction, strike = self._turns[turning]
        seen -= _wrist_price(arm_deg, turning) + direction
        seen -= strike
        return np.asarray(seen)


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


def _wrist_price(arm_deg: float, turning: int) -> FloatArray:
    """The shaft trails the lead arm by no more than a full hinge; it leads only past the ball."""
    wrist = _ANGLES_DEG - arm_deg
    most_lead = _WRIST_LEAD_THROUGH_DEG if turning > 0 else _WRIST_LEAD_BACK_DEG
    beyond = np.maximum(-_WRIST_TRAIL_DEG - wrist, 0.0) + np.maximum(wrist - most_lead, 0.0)
    return np.asarray(0.5 * (beyond / _WRIST_SIGMA_DEG) ** 2)


def _direction_price(rates: FloatArray, turning: int) -> FloatArray:
    wrong = np.maximum(-rates * turning, 0.0)
    return np.asarray(2.0 * np.minimum(wrong / 3.0, 2.0))[:, None]


def _strike_price(rates: FloatArray, turning: int, frame_s: float) -> FloatArray:
    """Coming down, a club that dawdles anywhere near the ball strikes no ball."""
    if turning <= 0:
        return np.zeros((len(rates), len(_ANGLES_DEG)))
    missing = np.maximum(1.0 - rates / (_SLOWEST_STRIKE_DEG_PER_S * frame_s), 0.0)
    near_ball = np.abs(_ANGLES_DEG) < _NEAR_BALL_DEG
    return np.asarray(_STRIKE_PRICE * missing[:, None] * near_ball)


def _advance(score: FloatArray, rates: FloatArray, prices: FloatArray) -> FloatArray:
    """One frame on: the score of the best way to each (rate, angle)."""
    best = _best_earlier(score, prices)
    moved = np.full_like(best, -np.inf)
    for r, rate in enumerate(rates.astype(int).tolist()):
        if abs(rate) < best.shape[1]:  # where frames are far apart it may be turned further
            to, source = _shifted(rate, best.shape[1])
            moved[r, to] = best[r, source]
    return moved


def _best_earlier(score: FloatArray, prices: FloatArray) -> FloatArray:
    """The best score that each (rate, angle) can come from, at a price."""
    span, count = len(prices) // 2, len(score)
    best, option = np.full_like(score, -np.inf), np.empty_like(score)
    for change, price in enumerate(prices.tolist(), start=-span):
        source = score[max(change, 0) : count + min(change, 0)]
        into = best[max(-change, 0) : count - max(change, 0)]
        np.maximum(into, np.subtract(source, price, out=option[: len(source)]), out=into)
    return best


def _shifted(rate: int, count: int) -> tuple[slice, slice]:
    if rate >= 0:
        return slice(rate, count), slice(0, count - rate)
    return slice(0, count + rate), slice(-rate, count)


def path_to(last: Forward) -> ShaftPath:
    """The best path to the frame that the search has reached."""
    r, a = (int(i) for i in np.unravel_index(int(np.argmax(last.score)), last.score.shape))
    total, rates = float(last.score[r, a]), last.rates_deg
    path, at = [(r, a)], last
    while (earlier := at.came_from(*path[-1])) is not None and at.before is not None:
        path.append(earlier)
        at = at.before
    path.reverse()
    picked = np.array(path)
    return ShaftPath(_ANGLES_DEG[picked[:, 1]].astype(float), rates[picked[:, 0]], total)
