"""How a curve hangs between two pictures, against a parabola's exact bow.

That a straight line between two points lies f''/2 (t - a)(b - t) above a parabola is the textbook's
error of linear interpolation (Burden and Faires, Numerical Analysis, from memory).
"""

import numpy as np
import pytest

from baycue.swing.bow import UsualAcceleration, acceleration_deg_s2
from baycue.swing.curve import Curve
from baycue.swing.misfit import AnglesSeen

TIMES_S = np.linspace(0.0, 1.0, 501)
PICTURES_S = np.arange(0.0, 1.0, 0.03)


def parabola(deg_s2: float) -> Curve:
    rates = deg_s2 * TIMES_S
    return Curve(TIMES_S, rates * TIMES_S / 2, rates, np.ones(len(TIMES_S)))


def seen(curve: Curve) -> AnglesSeen:
    return AnglesSeen(PICTURES_S, np.interp(PICTURES_S, curve.times_s, curve.values))


@pytest.mark.parametrize("deg_s2", [-20_000.0, 0.0, 12_000.0])
@pytest.mark.parametrize("time_s", [0.301, 0.31, 0.315, 0.327])
def test_it_is_what_a_parabola_lies_below_the_line_between_two_pictures(
    deg_s2: float, time_s: float
) -> None:
    curve = parabola(deg_s2)
    looked = seen(curve)
    line_deg = float(np.interp(time_s, looked.times_s, looked.angles_deg))
    below_deg = line_deg - deg_s2 * time_s**2 / 2
    assert UsualAcceleration(0.0).too_low_deg(curve, looked, time_s) == pytest.approx(
        below_deg, abs=0.02
    )


def test_only_what_is_beyond_the_usual_counts_and_of_that_a_share() -> None:
    curve = parabola(9000.0)
    looked = seen(curve)
    assert acceleration_deg_s2(curve, 0.5) == pytest.approx(9000.0)
    assert UsualAcceleration(9000.0).too_low_deg(curve, looked, 0.5) == pytest.approx(0.0, abs=1e-9)
    whole_deg = UsualAcceleration(7000.0).too_low_deg(curve, looked, 0.5)
    assert whole_deg > 0
    assert UsualAcceleration(7000.0, 0.6).too_low_deg(curve, looked, 0.5) == pytest.approx(
        0.6 * whole_deg
    )
    assert UsualAcceleration(11_000.0).too_low_deg(curve, looked, 0.5) == pytest.approx(-whole_deg)


def test_on_a_picture_and_after_the_last_there_is_no_bow() -> None:
    curve = parabola(20_000.0)
    assert UsualAcceleration(0.0).too_low_deg(curve, seen(curve), float(PICTURES_S[7])) == 0.0
    assert UsualAcceleration(0.0).too_low_deg(curve, seen(curve), 0.995) == 0.0


def test_a_gap_in_the_pictures_counts_as_two_of_them_at_most() -> None:
    curve = parabola(10_000.0)
    far_apart = AnglesSeen(np.array([0.0, 1.0]), np.array([0.0, 5000.0]))
    assert UsualAcceleration(0.0).too_low_deg(curve, far_apart, 0.5) == pytest.approx(
        5000.0 * 0.034**2
    )
