"""Three latencies kept apart, and told as figures."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

_LONGEST_NS = 3_000_000_000


@dataclass(frozen=True, slots=True)
class Spread:
    """Of some milliseconds: how many, their median, 95th percentile and largest."""

    count: int
    median: float
    p95: float
    largest: float


def spread(values_ms: Sequence[float]) -> Spread | None:
    """None for no values."""
    if not values_ms:
        return None
    median, p95 = (float(np.percentile(values_ms, q)) for q in (50, 95))
    return Spread(len(values_ms), median, p95, max(values_ms))


def impact_sends(
    sent_ns: Sequence[int], clip_frames: int, impact_frames: Sequence[int]
) -> list[int]:
    """When the pictures of impact were sent, of all those sent."""
    return [at for number, at in enumerate(sent_ns) if number % clip_frames in impact_frames]


def end_to_end_ms(impacts_ns: Sequence[int], onsets_ns: Sequence[int]) -> list[float | None]:
    """From each impact to the first tone after it; None where none came within 3 s."""
    return [_first_after(impact, onsets_ns) for impact in impacts_ns]


def _first_after(impact_ns: int, onsets_ns: Sequence[int]) -> float | None:
    waits = [o - impact_ns for o in onsets_ns if 0 < o - impact_ns <= _LONGEST_NS]
    return min(waits) / 1e6 if waits else None
