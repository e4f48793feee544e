"""What a full swing must do, and how far the hands have come in it since address.

Distances are in body units (ankle to hip to shoulder); the thresholds are ours.
"""

import numpy as np

from baycue.swing.hands import HandSample
from baycue.swing.segment_state import Phase, SegmentState

FULL_RISE = 0.60
"""So high above the ball the hands come at the top, at the least."""
RETURNED = 0.22
"""So near to the ball hands that come down are back at it."""
LONGEST_DOWNSWING_NS = 650_000_000
SLOWEST_STRIKE_PER_S = 1.8


def from_ball(state: SegmentState, sample: HandSample) -> float:
    """How far the hands are from where they were at address, body units."""
    assert state.anchor_px is not None
    return float(np.linalg.norm(sample.hands_px - state.anchor_px)) / sample.body_px


def risen(state: SegmentState, sample: HandSample) -> float:
    """How far above where they were at address the hands are, body units."""
    assert state.anchor_px is not None
    return float(state.anchor_px[1] - sample.hands_px[1]) / sample.body_px


def is_back(state: SegmentState) -> bool:
    """Whether hands that come down have been back at the ball."""
    return state.phase is Phase.DOWN and state.nearest <= RETURNED


def peak_speed_per_s(state: SegmentState) -> float:
    """The hands' highest speed over the last frames, body units a second."""
    places = np.array([s.hands_px for s in state.recent])
    times = np.array([s.stamp_ns for s in state.recent]) * 1e-9
    steps = np.linalg.norm(np.diff(places, axis=0), axis=1)
    return float((steps / np.diff(times)).max()) / state.recent[-1].body_px
