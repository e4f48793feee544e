"""Hands as they stream by, frame for frame, and what the segmentation tells of them.

All tracks are made up here: hands in body units about the shoulders' middle, x to the right
of the picture and y down, over seconds.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.optimize import minimize_scalar

from baycue.swing.events import StrikeSeen, SwingEvent
from baycue.swing.hands import HandSample
from baycue.swing.segment import advance
from baycue.swing.segment_state import SegmentState
from tests.canned_swing import canned_swing
from tests.stick_golfer import FloatArray, frame_times_s

BODY_PX = 330.0
ARM_BODIES = 0.44
SHOULDERS_PX = np.array([640.0, 240.0])
RATES = [30, 60, 120]
START_NS = 5_000_000_000

Track = Callable[[float], FloatArray]
"""Where the hands are, (2,) body units from the shoulders, at a time in seconds."""


def on_the_arms_circle(arm_deg: float, trail_sign: int = 1) -> FloatArray:
    """The hands of an arm at that angle, about the lead shoulder."""
    angle = np.radians(arm_deg)
    return np.array([trail_sign * (0.05 + ARM_BODIES * np.sin(angle)), ARM_BODIES * np.cos(angle)])


def swing_track(time_s: float, pace: float = 1.0, trail_sign: int = 1) -> FloatArray:
    """The canned swing, its top at 0."""
    return on_the_arms_circle(float(canned_swing().arm_deg(time_s * pace)), trail_sign)


def streamed(
    track: Track,
    fps: float,
    from_s: float,
    to_s: float,
    phase: float = 0.0,
    apart: float = 0.06,
    jitter: float = 0.0,
) -> list[HandSample]:
    rng = np.random.default_rng(11)
    return [
        HandSample(
            START_NS + round(float(t) * 1e9),
            SHOULDERS_PX + BODY_PX * (where := track(float(t)) + rng.normal(0, jitter, 2)),
            BODY_PX,
            apart,
            float(where[1]),
        )
        for t in frame_times_s(fps, from_s, to_s, phase)
    ]


@dataclass(frozen=True, slots=True)
class Told:
    """An event and the stamp of the frame that brought it."""

    event: SwingEvent
    stamp_ns: int


def told_by(stream: Sequence[HandSample | None]) -> list[Told]:
    state, told, stamp_ns = SegmentState(), [], 0
    for sample in stream:
        stamp_ns = sample.stamp_ns if sample else stamp_ns
        state, event = advance(state, sample)
        if event:
            told.append(Told(event, stamp_ns))
    return told


def kinds(told: Sequence[Told]) -> list[type[SwingEvent]]:
    return [type(t.event) for t in told]


def strike_of(told: Sequence[Told]) -> StrikeSeen:
    (strike,) = (t.event for t in told if isinstance(t.event, StrikeSeen))
    return strike


@lru_cache(maxsize=8)
def true_return_s(pace: float = 1.0) -> float:
    """When, coming down, the hands are nearest to where they were at address."""
    home = swing_track(-2.0)

    def gone(time_s: float) -> float:
        return float(np.linalg.norm(swing_track(time_s, pace) - home))

    return float(minimize_scalar(gone, bounds=(0.05, 0.45 / pace), method="bounded").x)
