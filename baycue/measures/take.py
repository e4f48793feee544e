"""A track taken at a checkpoint, as a change, or as the largest or least over a span.

The sigma covers what shows in the track as noise, what it may be off by besides, the scale,
and how sure the checkpoints are: a quantity on the move is as unsure as its moment.
"""

from dataclasses import dataclass

import numpy as np

from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.largest import largest_of
from baycue.measures.track import Track
from baycue.measures.when import Extreme, When, checkpoint_of
from baycue.swing.local_fit import FittedValue
from baycue.swing.swing import Checkpoint, CheckpointName

_LOOKS_A_MEMORY = 4
_TURNED = {
    CheckpointName.TAKEAWAY: 0.0,
    CheckpointName.P3: 0.6,
    CheckpointName.TOP: 1.0,
    CheckpointName.P5: 0.6,
    CheckpointName.P6: 0.0,
    CheckpointName.IMPACT: 0.0,
}
"""How the pose model's errors grow and shrink, on the bench's development swings (seed 2)."""


@dataclass(frozen=True, slots=True)
class Taken:
    """A value and its one-sigma, in the measure's unit."""

    value: float
    sigma: float


@dataclass(frozen=True, slots=True)
class _Seen:
    """A track's value at a checkpoint.

    ``timing``: what the checkpoint's spread makes of it; ``each``: what it may be off by
    besides.
    """

    value: float
    noise: float
    timing: float
    each: float


def take(evidence: SwingEvidence, track: Track, when: When) -> Taken:
    """What a target asks of a track; NotMeasuredError if a checkpoint was not found."""
    if when.extreme is not None:
        return _over_span(evidence, track, when, when.extreme)
    start, end = (checkpoint_of(evidence, name) for name in (when.start, when.end))
    if start.name is end.name:
        return _at(evidence, track, start)
    return _change(evidence, track, start, end)


def _at(evidence: SwingEvidence, track: Track, at: Checkpoint) -> Taken:
    seen = _seen(evidence, track, at)
    return _taken(
        seen.value,
        [seen.noise, seen.timing, seen.each, track.shared_sigma],
        track,
    )


def _change(evidence: SwingEvidence, track: Track, start: Checkpoint, end: Checkpoint) -> Taken:
    before, after = _seen(evidence, track, start), _seen(evidence, track, end)
    return _taken(
        after.value - before.value,
        [before.noise, before.timing, after.noise, after.timing, before.each, after.each],
        track,
    )


def _over_span(evidence: SwingEvidence, track: Track, when: When, extreme: Extreme) -> Taken:
    start, end = (checkpoint_of(evidence, name) for name in (when.start, when.end))
    origin = _seen(evidence, track, checkpoint_of(evidence, when.against)) if when.against else None
    span = _span(evidence, track, start, end)
    zero = origin.value if origin else 0.0
    sign = _sign(extreme, span.values - zero)
    found = largest_of(span.times_s, sign * span.values, span.noises, track.course.memory_s)
    each = _each(evidence, track, float(span.times_s[found.index]))
    besides = [origin.noise, origin.timing, origin.each] if origin else [track.shared_sigma]
    ends = {0: start, len(span.times_s) - 1: end}
    timing = _timing(span.rates[found.index], ends.get(found.index))
    return _taken(sign * found.value - zero, [found.sigma, timing, each, *besides], track)


@dataclass(frozen=True, slots=True)
class _Span:
    """A smoothed track at every moment of a span, (N,) each; the ends are the checkpoints."""

    times_s: FloatArray
    values: FloatArray
    rates: FloatArray
    noises: FloatArray


def _span(evidence: SwingEvidence, track: Track, start: Checkpoint, end: Checkpoint) -> _Span:
    from_s, to_s = start.time_ns * 1e-9, end.time_ns * 1e-9
    inner = _inner(track, from_s, to_s)
    first, last = _fitted(evidence, track, start), _fitted(evidence, track, end)
    fits = track.course.over(inner)
    return _Span(
        np.array([from_s, *inner, to_s]),
        np.array([first.value, *fits.values, last.value]),
        np.array([first.rate_per_s, *fits.rates, last.rate_per_s]),
        np.array([first.sigma, *fits.sigmas, last.sigma]),
    )


def _inner(track: Track, from_s: float, to_s: float) -> FloatArray:
    """The track's moments between two, no closer than its smoothing can tell apart."""
    times = track.course.times_s
    times = times[(times > from_s) & (times < to_s)]
    step_s = track.course.memory_s / _LOOKS_A_MEMORY
    looks = np.floor((times - from_s) / step_s)
    return times[np.flatnonzero(np.diff(looks, prepend=-1.0))]


def _sign(extreme: Extreme, values: FloatArray) -> float:
    """Which way is "largest": +1, or -1 where the least is looked for."""
    if extreme is Extreme.FURTHEST:
        return 1.0 if values.max() >= -values.min() else -1.0
    return 1.0 if extreme is Extreme.LARGEST else -1.0


def _seen(evidence: SwingEvidence, track: Track, at: Checkpoint) -> _Seen:
    fitted, each = _fitted(evidence, track, at), _each(evidence, track, at.time_ns * 1e-9)
    if at.name in track.told_by:
        return _Seen(fitted.value, track.told_by[at.name], 0.0, each)
    return _Seen(fitted.value, fitted.sigma, _timing(fitted.rate_per_s, at), each)


def _fitted(evidence: SwingEvidence, track: Track, at: Checkpoint) -> FittedValue:
    """At address the middle over the whole time of standing still."""
    if at.name is CheckpointName.ADDRESS:
        takeaway = evidence.swing.at(CheckpointName.TAKEAWAY)
        return track.course.still((takeaway or at).time_ns * 1e-9)
    return track.course.at(at.time_ns * 1e-9)


def _timing(rate_per_s: float, at: Checkpoint | None) -> float:
    return float(rate_per_s) * at.sigma_ns * 1e-9 if at else 0.0


def _each(evidence: SwingEvidence, track: Track, time_s: float) -> float:
    turned = track.turned_sigma * turned_share(evidence, time_s)
    return float(np.hypot(track.each_sigma, turned)) * evidence.company_factor


def turned_share(evidence: SwingEvidence, time_s: float) -> float:
    """How much of its greatest turn the body has, roughly: 1 at the top, 0 from P6 on."""
    found = [c for c in evidence.swing.checkpoints if c.name in _TURNED]
    if not found:
        return 1.0
    times = [c.time_ns * 1e-9 for c in found]
    return float(np.interp(time_s, times, [_TURNED[c.name] for c in found]))


def _taken(value: float, sigmas: list[float], track: Track) -> Taken:
    value *= track.gain
    return Taken(value, float(np.linalg.norm([*sigmas, value * track.sigma_share])))
