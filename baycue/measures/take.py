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


@dataclass(frozen=True, slots=True)
class Taken:
    """A value and its one-sigma, in the measure's unit."""

    value: float
    sigma: float


@dataclass(frozen=True, slots=True)
class _Seen:
    """A track's value at a checkpoint; ``timing``: what the checkpoint's spread makes of it."""

    value: float
    noise: float
    timing: float


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
        [seen.noise, seen.timing, _each(evidence, track), track.shared_sigma],
        track,
    )


def _change(evidence: SwingEvidence, track: Track, start: Checkpoint, end: Checkpoint) -> Taken:
    before, after = _seen(evidence, track, start), _seen(evidence, track, end)
    each = _each(evidence, track)
    return _taken(
        after.value - before.value,
        [before.noise, before.timing, after.noise, after.timing, each, each],
        track,
    )


def _over_span(evidence: SwingEvidence, track: Track, when: When, extreme: Extreme) -> Taken:
    start, end = (checkpoint_of(evidence, name) for name in (when.start, when.end))
    origin = _seen(evidence, track, checkpoint_of(evidence, when.against)) if when.against else None
    span = _span(evidence, track, start, end)
    zero = origin.value if origin else 0.0
    sign = _sign(extreme, span.values - zero)
    found = largest_of(span.times_s, sign * span.values, span.noises, track.course.memory_s)
    each = _each(evidence, track)
    besides = [track.shared_sigma] if origin is None else [origin.noise, origin.timing, each]
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
    times = track.course.times_s
    inner = times[(times > from_s) & (times < to_s)]
    fits = [track.course.at(float(t)) for t in inner]
    first, last = _fitted(evidence, track, start), _fitted(evidence, track, end)
    all_fits = [first, *fits, last]
    return _Span(
        np.array([from_s, *inner, to_s]),
        np.array([f.value for f in all_fits]),
        np.array([f.rate_per_s for f in all_fits]),
        np.array([f.sigma for f in all_fits]),
    )


def _sign(extreme: Extreme, values: FloatArray) -> float:
    """Which way is "largest": +1, or -1 where the least is looked for."""
    if extreme is Extreme.FURTHEST:
        return 1.0 if values.max() >= -values.min() else -1.0
    return 1.0 if extreme is Extreme.LARGEST else -1.0


def _seen(evidence: SwingEvidence, track: Track, at: Checkpoint) -> _Seen:
    fitted = _fitted(evidence, track, at)
    return _Seen(fitted.value, fitted.sigma, _timing(fitted.rate_per_s, at))


def _fitted(evidence: SwingEvidence, track: Track, at: Checkpoint) -> FittedValue:
    """At address the middle over the whole time of standing still."""
    if at.name is CheckpointName.ADDRESS:
        takeaway = evidence.swing.at(CheckpointName.TAKEAWAY)
        return track.course.still((takeaway or at).time_ns * 1e-9)
    return track.course.at(at.time_ns * 1e-9)


def _timing(rate_per_s: float, at: Checkpoint | None) -> float:
    return float(rate_per_s) * at.sigma_ns * 1e-9 if at else 0.0


def _each(evidence: SwingEvidence, track: Track) -> float:
    return track.each_sigma * evidence.company_factor


def _taken(value: float, sigmas: list[float], track: Track) -> Taken:
    value *= track.gain
    return Taken(value, float(np.linalg.norm([*sigmas, value * track.sigma_share])))
