"""What a club may do between two frames, and the price of what it hardly does.

The search for the shaft's path weighs these against what the pictures say.
"""

import numpy as np
from numpy.typing import NDArray

from baycue.club.evidence import WIDTHS_DEG

FloatArray = NDArray[np.float64]

LOWEST_DEG, HIGHEST_DEG = -330, 260
ANGLES_DEG = np.arange(LOWEST_DEG, HIGHEST_DEG + 1)
"""The shaft angles searched: as far as a fast club comes while it is looked at past the ball."""
_RATE_STEPS = 41
_FASTEST_DEG_PER_S = 4000.0
_FASTEST_BACK_DEG_PER_S = 900.0
_USUAL_FAST_DEG_PER_S, _FASTER_SIGMA_DEG_PER_S = 2500.0, 1000.0
"""A head at 50 m/s before hands at 8, 1.1 m apart, turns the shaft by 2,200 deg/s (common practice,
no source); seen aslant it may look half as fast again."""
_USUAL_DEG_PER_S2, _RELEASE_DEG_PER_S2 = 14000.0, 35000.0
_RELEASE_DEG = (-150, -40)
"""The wrists let go about where the shaft is parallel to the ground: a late, violent release takes
it from 1,500 to 3,300 deg/s within a twentieth of a second.  Before that and past the ball nothing
does.  Assumed, and looked at on development swings (the bench's seeds 1, 4 and 5), where 35,000 and
45,000 deg/s^2 read much alike, P6 does with ends from -40 to 0 degrees too, and impact is nearest
with -40 (at 30 frames a second within 6.9 ms, 95 %, and 8.2 with 0)."""
_SLOWEST_STRIKE_DEG_PER_S = 1300.0
_NEAR_BALL_DEG = 95
_STRIKE_PRICE = 12.0
_WRIST_TRAIL_DEG, _WRIST_LEAD_BACK_DEG, _WRIST_LEAD_THROUGH_DEG = 150.0, 45.0, 145.0
_WRIST_SIGMA_DEG = 10.0


def rate_grid_deg(frame_s: float) -> FloatArray:
    """The turning rates searched, deg a frame, whole degrees."""
    low = -_FASTEST_BACK_DEG_PER_S * frame_s
    high = _FASTEST_DEG_PER_S * frame_s
    step = max(1.0, np.ceil((high - low) / _RATE_STEPS))
    return np.asarray(np.arange(np.floor(low / step), np.ceil(high / step) + 1) * step)


def widest_smear(rates_deg: FloatArray) -> NDArray[np.intp]:
    """For each rate the widest smear that a shutter open all the time could draw."""
    widest = np.searchsorted(WIDTHS_DEG, np.abs(rates_deg) + WIDTHS_DEG[0], side="right") - 1
    return np.maximum(widest, 0)


def rate_change_prices(rates: FloatArray, turning: int, frame_s: float) -> FloatArray:
    """Prices (changes, angles) of coming from a rate -n to +n grid steps on, at the angle left.

    From below the middle the club gathers speed: coming down it does so freely in the release.
    n reaches thrice what is usual there; slowing down as much has no price that can be paid.
    """
    usual, release = (
        per_s2 * frame_s**2 + 0.5 for per_s2 in (_USUAL_DEG_PER_S2, _RELEASE_DEG_PER_S2)
    )
    step, down = rates[1] - rates[0], turning > 0
    most = min(int(np.ceil(3 * (release if down else usual) / step)), len(rates) - 1)
    changes = np.arange(-most, most + 1)[:, None]
    first, last = _RELEASE_DEG
    freely = down & (changes < 0) & (first <= ANGLES_DEG) & (last >= ANGLES_DEG)
    prices = 0.5 * (changes * step / np.where(freely, release, usual)) ** 2
    return np.where(changes > np.ceil(3 * usual / step), np.inf, prices)


def start_scores(rate_count: int) -> FloatArray:
    """The club starts at the ball: within some 35 degrees of straight down."""
    price = 0.5 * (np.maximum(np.abs(ANGLES_DEG) - 25.0, 0.0) / 5.0) ** 2
    return np.tile(-price, (rate_count, 1))


def wrist_price(arm_deg: float, turning: int) -> FloatArray:
    """The shaft trails the lead arm by no more than a full hinge; it leads only past the ball."""
    wrist = ANGLES_DEG - arm_deg
    most_lead = _WRIST_LEAD_THROUGH_DEG if turning > 0 else _WRIST_LEAD_BACK_DEG
    beyond = np.maximum(-_WRIST_TRAIL_DEG - wrist, 0.0) + np.maximum(wrist - most_lead, 0.0)
    return np.asarray(0.5 * (beyond / _WRIST_SIGMA_DEG) ** 2)


def turning_price(rates: FloatArray, turning: int, frame_s: float) -> FloatArray:
    """Price (rates, angles) of turning so fast there, whatever came before."""
    price = _direction_price(rates, turning) + _speed_price(rates, frame_s)
    return price + _strike_price(rates, turning, frame_s)


def _direction_price(rates: FloatArray, turning: int) -> FloatArray:
    wrong = np.maximum(-rates * turning, 0.0)
    return np.asarray(2.0 * np.minimum(wrong / 3.0, 2.0))[:, None]


def _speed_price(rates: FloatArray, frame_s: float) -> FloatArray:
    """Hardly a club turns faster than the fastest usually do."""
    beyond = np.maximum(rates / frame_s - _USUAL_FAST_DEG_PER_S, 0.0)
    return np.asarray(0.5 * (beyond / _FASTER_SIGMA_DEG_PER_S) ** 2)[:, None]


def _strike_price(rates: FloatArray, turning: int, frame_s: float) -> FloatArray:
    """Coming down, a club that dawdles anywhere near the ball strikes no ball."""
    if turning <= 0:
        return np.zeros((len(rates), len(ANGLES_DEG)))
    missing = np.maximum(1.0 - rates / (_SLOWEST_STRIKE_DEG_PER_S * frame_s), 0.0)
    near_ball = np.abs(ANGLES_DEG) < _NEAR_BALL_DEG
    return np.asarray(_STRIKE_PRICE * missing[:, None] * near_ball)
