"""The two-link model of a swing: an arm and a club hinged at the wrist, in one plane.

Angles are absolute, radians from straight down, positive toward the target; the wrist angle
is club minus arm, so a cocked wrist is negative.  There is no gravity and the hub is fixed.
The wrist is locked until the torque that holds it falls to zero, then it is free unless a
driving torque is asked for.  The model is the textbook double pendulum of golf (Cochran &
Stobbs 1968; Jorgensen 1994; Penner 2003).
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, radians, sin
from typing import cast

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

State = NDArray[np.float64]
"""(4,) arm angle, club angle (rad), arm rate, club rate (rad/s)."""


@dataclass(frozen=True, slots=True)
class Links:
    """Sizes and inertias; the defaults are those commonly quoted for a driver."""

    arm_m: float = 0.615
    arm_inertia_kg_m2: float = 1.15
    club_kg: float = 0.394
    grip_to_club_centre_m: float = 0.753
    club_inertia_kg_m2: float = 0.077

    def inertias(self) -> tuple[float, float, float]:
        """Arm with the club's mass at the wrist, club about the wrist, coupling (kg m2)."""
        return (
            self.arm_inertia_kg_m2 + self.club_kg * self.arm_m**2,
            self.club_inertia_kg_m2 + self.club_kg * self.grip_to_club_centre_m**2,
            self.club_kg * self.arm_m * self.grip_to_club_centre_m,
        )


def constant_torque(torque_nm: float) -> Callable[[float], float]:
    """A shoulder torque that does not depend on the arm angle."""
    return lambda _arm_rad: torque_nm


@dataclass(frozen=True, slots=True)
class Drive:
    """What drives the links: shoulder torque by arm angle, and what the wrist does.

    ``release_arm_deg`` unlocks the wrist at that arm angle instead of at zero holding
    torque; ``wrist_nm`` is a torque opening the wrist after the release, of which there is
    ``wrist_share`` by arm angle (rad).
    """

    shoulder_nm: Callable[[float], float]
    release_arm_deg: float | None = None
    wrist_nm: float = 0.0
    wrist_share: Callable[[float], float] = lambda _arm_rad: 1.0


@dataclass(frozen=True, slots=True)
class Start:
    """How the links stand and turn at time zero, locked together."""

    arm_deg: float = -166.0
    wrist_deg: float = -124.0
    rate_rad_s: float = 0.0

    def state(self) -> State:
        """The (4,) state of it."""
        arm = radians(self.arm_deg)
        return np.array([arm, arm + radians(self.wrist_deg), self.rate_rad_s, self.rate_rad_s])


@dataclass(frozen=True, slots=True)
class TwoLinkSwing:
    """A solved swing: two dense solutions joined at the release."""

    links: Links
    release_s: float
    end_s: float
    locked: Callable[[float], State]
    free: Callable[[float], State]

    def state_at(self, time_s: float) -> State:
        """The (4,) state; times outside 0 to ``end_s`` are held at the ends."""
        time_s = min(max(time_s, 0.0), self.end_s)
        solution = self.locked if time_s < self.release_s else self.free
        return np.asarray(solution(time_s), dtype=np.float64)


def locked_rate_change(links: Links, drive: Drive, state: State) -> float:
    """Angular acceleration (rad/s2) of arm and club turning as one."""
    arm, club, coupling = links.inertias()
    whole = arm + club + 2 * coupling * cos(state[1] - state[0])
    return drive.shoulder_nm(float(state[0])) / whole


def holding_torque_nm(links: Links, drive: Drive, state: State) -> float:
    """The wrist torque that keeps the wrist angle as it is."""
    _, club, coupling = links.inertias()
    wrist = state[1] - state[0]
    turning = (club + coupling * cos(wrist)) * locked_rate_change(links, drive, state)
    return float(turning + coupling * sin(wrist) * state[2] ** 2)


def _free_slope(links: Links, drive: Drive, state: State) -> State:
    arm, club, coupling = links.inertias()
    wrist = state[1] - state[0]
    cross, pull = coupling * cos(wrist), coupling * sin(wrist)
    arm_rad = float(state[0])
    wrist_nm = drive.wrist_nm * drive.wrist_share(arm_rad)
    torque = np.array(
        [
            drive.shoulder_nm(arm_rad) - wrist_nm + pull * state[3] ** 2,
            wrist_nm - pull * state[2] ** 2,
        ]
    )
    rates = np.linalg.solve(np.array([[arm, cross], [cross, club]]), torque)
    return np.array([state[2], state[3], rates[0], rates[1]])


def _locked_slope(links: Links, drive: Drive, state: State) -> State:
    change = locked_rate_change(links, drive, state)
    return np.array([state[2], state[3], change, change])


def _release_event(links: Links, drive: Drive) -> Callable[[float, State], float]:
    if drive.release_arm_deg is None:
        return lambda _t, state: holding_torque_nm(links, drive, state)
    release = radians(drive.release_arm_deg)
    return lambda _t, state: release - float(state[0])


def _integrate(
    slope: Callable[[Links, Drive, State], State],
    links: Links,
    drive: Drive,
    span: tuple[float, float],
    state: State,
    until: Callable[[float, State], float],
) -> tuple[float, State, Callable[[float], State]]:
    def event(time_s: float, state: State) -> float:
        return until(time_s, state)

    event.terminal = True  # type: ignore[attr-defined]
    event.direction = -1.0  # type: ignore[attr-defined]
    solution = solve_ivp(
        lambda _t, s: slope(links, drive, s),
        span,
        state,
        method="DOP853",
        events=event,
        dense_output=True,
        rtol=1e-10,
        atol=1e-12,
    )
    if solution.status != 1:
        raise ValueError(f"the links did not get there within {span[1]} s")
    return float(solution.t[-1]), solution.y[:, -1], cast(Callable[[float], State], solution.sol)


def _locked_part(
    links: Links, start: Start, drive: Drive, limit_s: float
) -> tuple[float, State, Callable[[float], State]]:
    event, state = _release_event(links, drive), start.state()
    if event(0.0, state) <= 0:
        return 0.0, state, lambda _t: state
    return _integrate(_locked_slope, links, drive, (0.0, limit_s), state, event)


def swing_links(
    links: Links, start: Start, drive: Drive, end_club_deg: float, limit_s: float = 5.0
) -> TwoLinkSwing:
    """Swing from ``start`` until the club is at ``end_club_deg``.

    Raises ValueError if the wrist never releases or the club never gets there.
    """
    end = radians(end_club_deg)
    release_s, state, locked = _locked_part(links, start, drive, limit_s)
    end_s, _, free = _integrate(
        _free_slope,
        links,
        drive,
        (release_s, limit_s),
        state,
        lambda _t, state: end - float(state[1]),
    )
    return TwoLinkSwing(links, release_s, end_s, locked, free)


def time_of_club(swing: TwoLinkSwing, club_deg: float) -> float:
    """When (s) the club first passes ``club_deg``; found to better than a microsecond."""
    target = radians(club_deg)
    return float(
        brentq(lambda t: float(swing.state_at(t)[1]) - target, 0.0, swing.end_s, xtol=1e-9)
    )
