"""What is true of each measure through a swing: at every checkpoint and over any span.

The greatest and least values are those of the continuous motion: it is looked at every 4 ms and
at every checkpoint, and a parabola through the three looks about an extreme says how far it goes
between them.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from baycue.swing.swing import CheckpointName
from baycue.synthetic.true_measures import TRUE_READINGS, Stand

FloatArray = NDArray[np.float64]

_STEP_S = 0.004
_DIGITS = 6
_ORDER = [name.value for name in CheckpointName]


@dataclass(frozen=True, slots=True)
class TrueTrack:
    """One measure of one swing, metres or degrees, by checkpoint's name.

    ``at``: there.  ``least`` and ``largest``: from there to the next checkpoint.
    """

    at: dict[str, float]
    least: dict[str, float]
    largest: dict[str, float]

    def change(self, start: str, end: str) -> float:
        """How much it grows from one checkpoint to another."""
        return self.at[end] - self.at[start]

    def largest_over(self, start: str, end: str) -> float:
        """The largest value from one checkpoint to a later one; ValueError if it is no later."""
        return max(self.largest[name] for name in _spans(start, end))

    def least_over(self, start: str, end: str) -> float:
        """The least value over the same."""
        return min(self.least[name] for name in _spans(start, end))


def _spans(start: str, end: str) -> list[str]:
    names = _ORDER[_ORDER.index(start) : _ORDER.index(end)]
    if not names:
        raise ValueError(f"{end} does not come after {start}")
    return names


def true_tracks(
    stand_at: Callable[[float], Stand], checkpoints_s: Mapping[CheckpointName, float]
) -> dict[str, TrueTrack]:
    """Every one of ``TRUE_READINGS`` through a swing whose checkpoints are in order of time."""
    marks = list(checkpoints_s.values())
    times = _looks(marks)
    stands = [stand_at(t) for t in times]
    address = stands[0]
    return {
        name: _track([read(now, address) for now in stands], times, marks)
        for name, read in TRUE_READINGS.items()
    }


def _looks(marks: Sequence[float]) -> FloatArray:
    """Every checkpoint, and evenly between each and the next."""
    parts = [
        np.linspace(a, b, max(int(np.ceil((b - a) / _STEP_S)), 1), endpoint=False)
        for a, b in pairwise(marks)
    ]
    return np.unique(np.concatenate([*parts, marks[-1:]]))


def lowest_before_s(stand_at: Callable[[float], Stand], top_s: float, impact_s: float) -> float:
    """How long before impact the middle of the hips is lowest, between top and impact."""
    times = np.append(np.arange(top_s, impact_s, _STEP_S), impact_s)
    heights = np.array([stand_at(t).middle("thigh")[1] for t in times])
    k = int(np.argmin(heights))
    if k in (0, len(times) - 1):
        return float(impact_s - times[k])
    near = slice(k - 1, k + 2)
    curve = np.polyfit(times[near] - times[k], heights[near], 2)
    return float(impact_s - times[k] + curve[1] / (2 * curve[0]))


def _track(values: Sequence[float], times: FloatArray, marks: Sequence[float]) -> TrueTrack:
    seen = np.unwrap(values, period=360.0)  # angles go on past 180; lengths never jump so far
    places = [int(np.searchsorted(times, mark)) for mark in marks]
    parts = list(zip(_ORDER[:-1], places[:-1], places[1:], strict=True))
    return TrueTrack(
        at={name: _rounded(seen[k]) for name, k in zip(_ORDER, places, strict=True)},
        least={name: _rounded(-largest(times, -seen, a, b)) for name, a, b in parts},
        largest={name: _rounded(largest(times, seen, a, b)) for name, a, b in parts},
    )


def largest(times: FloatArray, values: FloatArray, first: int, last: int) -> float:
    """The largest of a smooth curve through (N,) values from place ``first`` to ``last``."""
    k = first + int(np.argmax(values[first : last + 1]))
    if k in (first, last):
        return float(values[k])
    curve = np.polyfit(times[k - 1 : k + 2] - times[k], values[k - 1 : k + 2], 2)
    return float(values[k] - curve[1] ** 2 / (4 * curve[0])) if curve[0] else float(values[k])


def _rounded(value: float) -> float:
    return round(float(value), _DIGITS)
