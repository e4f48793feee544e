"""Hands that are together at the ball, and hands that are still; distances in body units."""

import numpy as np

from baycue.swing.hands import FloatArray, HandSample

STILL_NS = 200_000_000
_TOGETHER = 0.30
_LOW = 0.25


def at_the_ball(sample: HandSample) -> bool:
    """Whether the hands are together and as low as where a ball is addressed."""
    return sample.apart < _TOGETHER and sample.below_shoulders > _LOW


def is_still(recent: tuple[HandSample, ...], sample: HandSample, spread: float) -> bool:
    """Whether they have stayed within the spread, body units, for ``STILL_NS`` up to this frame."""
    since = sample.stamp_ns - STILL_NS
    if recent[0].stamp_ns > since:
        return False
    seen = [s for s in recent if s.stamp_ns >= since]
    if sample.stamp_ns - seen[0].stamp_ns < STILL_NS / 2:  # one look alone is always still
        seen.insert(0, recent[-len(seen) - 1])
    places = np.array([s.hands_px for s in seen])
    return bool(np.ptp(places, axis=0).max() < spread * sample.body_px)


def centre_px(recent: tuple[HandSample, ...], since_ns: int) -> FloatArray:
    """The middle, (2,) px, of where the hands have been since then."""
    places = [s.hands_px for s in recent if s.stamp_ns >= since_ns]
    return np.asarray(np.mean(places, axis=0))
