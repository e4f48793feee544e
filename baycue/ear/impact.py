"""From a click heard and an impact seen to when the ball was struck, and whether it was."""

from dataclasses import dataclass
from enum import Enum
from math import hypot

from baycue.ear.strike import Strike

SPEED_OF_SOUND_M_S = 343.2
"""In dry air at 20 degrees C; common textbook value, from memory."""

_LEAST_REACH_NS, _REACH_SIGMAS = 60_000_000, 4.0
_DISTANCE_SIGMA_M = 0.5
_LATENCY_SIGMA_S = 0.004
"""How far a driver's word on its input latency may be off; assumed."""


class Struck(Enum):
    """What the swing met."""

    BALL = "ball"
    PRACTICE = "practice swing"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Hearing:
    """Where the microphone is.

    ``distance_m``: from ball to microphone.  ``latency_s``: of the input, as the driver tells.
    """

    distance_m: float = 2.0
    latency_s: float = 0.0

    @property
    def travel_s(self) -> float:
        """How long the sound is under way, s."""
        return self.distance_m / SPEED_OF_SOUND_M_S


@dataclass(frozen=True, slots=True)
class HeardStrike:
    """A strike at the ball, corrected for travel and latency, on the frames' clock."""

    time_ns: int
    sigma_ns: int


@dataclass(frozen=True, slots=True)
class Impact:
    """When the club met the ball, one-sigma, and what is known of the ball."""

    time_ns: int
    sigma_ns: int
    struck: Struck


def window_ns(seen_ns: int, seen_sigma_ns: int) -> tuple[int, int]:
    """Within which a strike at the ball may belong to an impact seen."""
    reach = max(_LEAST_REACH_NS, round(_REACH_SIGMAS * seen_sigma_ns))
    return seen_ns - reach, seen_ns + reach


def arrival_window_s(
    window: tuple[int, int], first_sample_ns: int, hearing: Hearing
) -> tuple[float, float]:
    """The window in seconds of sound whose first sample was delivered at ``first_sample_ns``."""
    late_s = hearing.travel_s + hearing.latency_s
    low, high = ((edge - first_sample_ns) * 1e-9 + late_s for edge in window)
    return low, high


def heard_strike(strike: Strike, first_sample_ns: int, hearing: Hearing) -> HeardStrike:
    """A click in the sound as a strike at the ball."""
    time_s = strike.time_s - hearing.travel_s - hearing.latency_s
    sigma_s = hypot(strike.sigma_s, _DISTANCE_SIGMA_M / SPEED_OF_SOUND_M_S, _LATENCY_SIGMA_S)
    return HeardStrike(first_sample_ns + round(time_s * 1e9), round(sigma_s * 1e9))


def impact_from(
    seen_ns: int, seen_sigma_ns: int, heard: HeardStrike | None, listening: bool
) -> Impact:
    """Eye and ear together: weighted by their variances where both tell of one strike.

    ``listening``: whether a microphone heard the whole window; without one nothing is known
    of the ball, and silence means a practice swing only to who listened.
    """
    if heard is None:
        struck = Struck.PRACTICE if listening else Struck.UNKNOWN
        return Impact(seen_ns, seen_sigma_ns, struck)
    low, high = window_ns(seen_ns, seen_sigma_ns)
    if not low <= heard.time_ns <= high:
        return Impact(seen_ns, seen_sigma_ns, Struck.PRACTICE)
    eye, ear = seen_sigma_ns**-2, heard.sigma_ns**-2
    offset = (heard.time_ns - seen_ns) * ear / (eye + ear)
    return Impact(seen_ns + round(offset), round((eye + ear) ** -0.5), Struck.BALL)
