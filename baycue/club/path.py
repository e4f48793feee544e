"""The likeliest way the shaft turned through a swing, found over all frames at once.

A Viterbi search over shaft angle and turning rate: evidence from each picture at the
smear widths that the rate allows, against the prices of what a club hardly does.
"""

from dataclasses import dataclass

import numpy as np

from baycue.club.path_prices import (
    ANGLES_DEG,
    FloatArray,
    rate_change_prices,
    rate_grid_deg,
    start_scores,
    turning_price,
    widest_smear,
    wrist_price,
)

_COLUMNS = np.mod(ANGLES_DEG, 360)


@dataclass(frozen=True, slots=True)
class ShaftPath:
    """Angle, deg, and rate, deg a frame, per frame ((N,) each), and the path's total score."""

    angle_deg: FloatArray
    rate_deg: FloatArray
    score: float


@dataclass(frozen=True, slots=True, eq=False)
class Forward:
    """The search as far as some frame.

    ``score``: (rates, angles) of the best path to each; ``prices``: (changes, angles) of having
    come from -n to +n places on in ``rates_deg``.
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
        prices = self.prices[low - rate + most : high - rate + most, angle]
        return low + int(np.argmax(self.before.score[low:high, angle] - prices)), angle


class PathSearch:
    """The search at one frame rate; ``extended`` takes in a frame."""

    def __init__(self, frame_s: float) -> None:
        self.frame_s = frame_s
        self._rates = rate_grid_deg(frame_s)
        self._widest = widest_smear(self._rates)
        each = (-1, 0, 1)
        self._changes = {t: rate_change_prices(self._rates, t, frame_s) for t in each}
        self._turns = {t: turning_price(self._rates, t, frame_s) for t in each}

    def extended(
        self, before: Forward | None, evidence: FloatArray, arm_deg: float, turning: int
    ) -> Forward:
        """One frame on; ``evidence`` is (len(WIDTHS_DEG), 360), None before the first frame."""
        local, prices = self._local(evidence, arm_deg, turning), self._changes[turning]
        if before is None:
            return Forward(self._rates, prices, start_scores(len(self._rates)) + local, None)
        score = _advance(before.score, self._rates, prices)
        score += local
        return Forward(self._rates, prices, score, before)

    def _local(self, evidence: FloatArray, arm_deg: float, turning: int) -> FloatArray:
        seen = np.maximum.accumulate(evidence, axis=0)[:, _COLUMNS][self._widest]
        seen -= wrist_price(arm_deg, turning)
        seen -= self._turns[turning]
        return np.asarray(seen)


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
    """The best score that each (rate, angle) can come from, at a price (changes, angles)."""
    span, count = len(prices) // 2, len(score)
    best, option = np.full_like(score, -np.inf), np.empty_like(score)
    for change, price in enumerate(prices, start=-span):
        if price[0] == np.inf:
            break  # slowing down even more has none either
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
    return ShaftPath(ANGLES_DEG[picked[:, 1]].astype(float), rates[picked[:, 0]], total)
