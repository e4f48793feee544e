"""The two-link swing against values that follow from published parameters.

The parameters (arm 0.615 m; club centre of mass 0.753 m from the grip, 0.394 kg; inertias
1.15 and 0.077 kg m2; start at arm -166 and wrist -124 degrees; no gravity) are as quoted in
a student's README that cites Cochran & Stobbs 1968, Jorgensen 1994 and Penner 2003: a
secondary source.  The expected times and angles were computed here, independently, with a
reference integrator; they are no published table.
"""

import numpy as np
import pytest
from scipy.optimize import brentq

from baycue.synthetic.two_link import (
    Drive,
    Links,
    Start,
    TwoLinkSwing,
    constant_torque,
    holding_torque_nm,
    swing_links,
    time_of_club,
)

TORQUES_NM = (40.0, 100.0, 160.0)


def swung(torque_nm: float) -> TwoLinkSwing:
    return swing_links(Links(), Start(), Drive(constant_torque(torque_nm)), 10.0)


def arm_deg(swing: TwoLinkSwing, time_s: float) -> float:
    return float(np.degrees(swing.state_at(time_s)[0]))


@pytest.mark.parametrize("torque_nm", TORQUES_NM)
def test_positions_do_not_depend_on_the_torque(torque_nm: float) -> None:
    """Computed from the quoted parameters: -128.43, -3.03 and +36.67 degrees of arm."""
    swing = swung(torque_nm)
    assert arm_deg(swing, swing.release_s) == pytest.approx(-128.43, abs=0.01)
    assert arm_deg(swing, time_of_club(swing, -90.0)) == pytest.approx(-3.03, abs=0.01)
    assert arm_deg(swing, time_of_club(swing, 0.0)) == pytest.approx(36.67, abs=0.01)


def test_times_and_speed_at_one_hundred_newton_metres() -> None:
    """Computed from the quoted parameters."""
    swing = swung(100.0)
    horizontal_s, vertical_s = time_of_club(swing, -90.0), time_of_club(swing, 0.0)
    assert swing.release_s * 1e3 == pytest.approx(135.27, abs=0.01)
    assert horizontal_s * 1e3 == pytest.approx(291.78, abs=0.01)
    assert vertical_s * 1e3 == pytest.approx(340.78, abs=0.01)
    assert (vertical_s - horizontal_s) * 1e3 == pytest.approx(49.0, abs=0.05)
    rate_deg_s = np.degrees(swing.state_at(horizontal_s)[3])
    assert rate_deg_s == pytest.approx(1651.0, abs=0.5)


def test_speed_goes_as_the_root_of_torque_and_time_as_its_inverse() -> None:
    """Follows from the equations: without gravity, torque only sets the clock."""
    slow, fast = swung(50.0), swung(200.0)
    slow_s, fast_s = time_of_club(slow, 0.0), time_of_club(fast, 0.0)
    assert slow_s / fast_s == pytest.approx(2.0, rel=1e-6)
    assert fast.state_at(fast_s)[3] / slow.state_at(slow_s)[3] == pytest.approx(2.0, rel=1e-6)


def test_undriven_links_hand_the_arms_speed_to_the_club() -> None:
    """After White 2006, Am J Phys 74:1088 (undriven, wrist released); numbers computed here.

    With arm and club in line: club 1.83515 and arm 0.34374 of the starting rate.
    """
    drive = Drive(constant_torque(0.0))
    swing = swing_links(Links(), Start(rate_rad_s=1.0), drive, 0.0, limit_s=20.0)

    def wrist(time_s: float) -> float:
        state = swing.state_at(time_s)
        return float(state[1] - state[0])

    state = swing.state_at(brentq(wrist, 0.5 * swing.end_s, swing.end_s, xtol=1e-10))
    assert state[3] == pytest.approx(1.83515, abs=2e-5)
    assert state[2] == pytest.approx(0.34374, abs=2e-5)


def test_energy_is_the_work_of_the_shoulder() -> None:
    """Conservation of energy, any textbook: a free wrist does no work."""
    swing, torque_nm = swung(100.0), 100.0
    arm, club, coupling = Links().inertias()
    for time_s in np.linspace(0.05, swing.end_s, 7):
        a, c, arm_rate, club_rate = swing.state_at(float(time_s))
        kinetic = 0.5 * (arm * arm_rate**2 + club * club_rate**2)
        kinetic += coupling * arm_rate * club_rate * np.cos(c - a)
        assert kinetic == pytest.approx(torque_nm * (a - np.radians(-166.0)), rel=1e-6)


def test_the_wrist_lets_go_where_it_has_nothing_left_to_hold() -> None:
    swing, drive = swung(100.0), Drive(constant_torque(100.0))
    before, at = swing.state_at(swing.release_s - 0.02), swing.state_at(swing.release_s)
    assert holding_torque_nm(Links(), drive, before) > 1.0
    assert holding_torque_nm(Links(), drive, at) == pytest.approx(0.0, abs=1e-6)


def test_a_later_release_brings_the_arm_further_by_shaft_parallel() -> None:
    arms = []
    for release_arm_deg in (-120.0, -90.0, -60.0):
        drive = Drive(constant_torque(100.0), release_arm_deg)
        swing = swing_links(Links(), Start(), drive, 0.0)
        arms.append(arm_deg(swing, time_of_club(swing, -90.0)))
    assert arms == sorted(arms)
    assert arms[2] - arms[0] > 5.0


def test_a_wrist_that_never_lets_go_is_an_error() -> None:
    drive = Drive(constant_torque(0.0), release_arm_deg=-90.0)
    with pytest.raises(ValueError, match="did not get there"):
        swing_links(Links(), Start(), drive, 0.0)
