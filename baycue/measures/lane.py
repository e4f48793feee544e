"""Where a plan's bound lies in a picture: the lane that what is measured may be in.

Counted from where the measured thing is in this very picture, by what its value there lacks of the
bound, so that whatever corrects the value (lens, bearing, the pose model's bias) is in it too.
"""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from baycue.measures.allowed import Allowed
from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.marks import Area, Line, Mark, Role, Sight
from baycue.measures.measure import Measure, Way
from baycue.measures.measurement import NotMeasuredError
from baycue.measures.scale import scale_of
from baycue.measures.track import Frames, Track
from baycue.measures.when import When, checkpoint_of
from baycue.swing.swing import CheckpointName

_HALF_SHARE, _OPEN_SHARE = 0.10, 0.06
"""Of the body: how far the lane's edge reaches either way, and how deep one without an end is."""
_OPEN_DEG = 8.0


def lane(sight: Sight, measure: Measure, allowed: Allowed) -> tuple[Mark, ...]:
    """The lane's area and edges; none where this picture does not show what is measured."""
    drawn = measure.draw(sight)
    if measure.track is None or measure.way is Way.UNSEEN or not drawn:
        return ()
    try:
        now = _value_now(sight, measure, measure.asked(allowed.when))
    except NotMeasuredError:
        return ()
    if now is None:
        return ()
    ends = [None if end is None else end - now for end in (allowed.low, allowed.high)]
    if measure.way in _SENSE:
        return _turned(sight, drawn, _SENSE[measure.way] * sight.stance.toward_target, ends)
    return _shifted(sight, *_way(sight, measure.way, drawn), ends)


_SENSE = {Way.CLOCKWISE: 1, Way.ANTICLOCKWISE: -1}


def _value_now(sight: Sight, measure: Measure, when: When) -> float | None:
    """What the measure's track says of this picture, counted as the target counts it.

    None before the checkpoint that it is counted from.
    """
    track = _track_of(measure, _Same(sight.evidence))
    time_s = sight.pose.stamp_ns * 1e-9
    value, zero = _raw(track, time_s), 0.0
    name = _counted_from(when)
    if name is not None:
        origin = checkpoint_of(sight.evidence, name)
        if name is CheckpointName.ADDRESS:
            takeaway = sight.evidence.swing.at(CheckpointName.TAKEAWAY) or origin
            zero = track.course.still(takeaway.time_ns * 1e-9).value
        elif time_s < origin.time_ns * 1e-9:
            return None
        else:
            zero = track.course.at(origin.time_ns * 1e-9).value
    return track.gain * (value - zero)


def _counted_from(when: When) -> CheckpointName | None:
    if when.extreme is not None:
        return when.against
    return when.start if when.start is not when.end else None


def _raw(track: Track, time_s: float) -> float:
    """Not smoothed, where it can be: it then moves as what is drawn moves."""
    course = track.course
    times = course.times_s
    if not times[0] - 1e-6 <= time_s <= times[-1] + 1e-6:
        raise NotMeasuredError("the picture lies outside what was measured")
    if isinstance(course, Frames):
        return float(course.values[int(np.argmin(np.abs(times - time_s)))])
    return course.at(time_s).value


class _Same:
    """A swing that is only like itself, so that a cache need not compare pictures of it."""

    def __init__(self, evidence: SwingEvidence) -> None:
        self.evidence = evidence

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.evidence is self.evidence

    def __hash__(self) -> int:
        return id(self.evidence)


@lru_cache(maxsize=16)
def _track_of(measure: Measure, swing: _Same) -> Track:
    assert measure.track is not None, "asked before"
    return measure.track(swing.evidence)


def _way(sight: Sight, way: Way, drawn: Sequence[Mark]) -> tuple[FloatArray, FloatArray]:
    """Where the measured thing is, and how far a value larger by 1 would move it, (2,) px each."""
    bar = _measured(drawn)
    px_per_m = scale_of(sight.evidence).px_per_m
    if way is Way.ALONG:
        return bar[-1], np.array([sight.stance.toward_target * px_per_m, 0.0])
    if way is Way.UP:
        return bar[-1], np.array([0.0, -px_per_m])
    out = bar[-1] - bar[0]
    return bar[-1], out / max(float(np.linalg.norm(out)), 1e-9) * px_per_m


def _measured(drawn: Sequence[Mark]) -> FloatArray:
    """The (2, 2) ends of the bar that shows the value."""
    lines = [m for m in drawn if isinstance(m, Line) and m.role is Role.MEASURED]
    return lines[-1].points_px


def _shifted(
    sight: Sight, place: FloatArray, unit: FloatArray, ends: Sequence[float | None]
) -> tuple[Mark, ...]:
    size = float(np.linalg.norm(unit))
    across = np.array([-unit[1], unit[0]]) / size * _HALF_SHARE * sight.body_px
    depth = _OPEN_SHARE * sight.body_px / size
    low, high = _closed(ends, depth)
    edges = [np.array([place + s * unit - across, place + s * unit + across]) for s in (low, high)]
    outline = np.vstack([edges[0], edges[1][::-1]])
    shown = [edge for edge, end in zip(edges, ends, strict=True) if end is not None]
    return (Area(outline, Role.LANE), *(Line(edge, Role.LANE) for edge in shown))


def _turned(
    sight: Sight, drawn: Sequence[Mark], sense: float, ends: Sequence[float | None]
) -> tuple[Mark, ...]:
    bar = _measured(drawn)
    reach = float(np.linalg.norm(bar[1] - bar[0]))
    start = float(np.degrees(np.arctan2(*(bar[1] - bar[0])[::-1])))
    low, high = _closed(ends, _OPEN_DEG)
    ways = [np.radians(start + sense * end) for end in np.linspace(low, high, 9)]
    rim = [bar[0] + reach * np.array([np.cos(way), np.sin(way)]) for way in ways]
    shown = [point for point, end in zip((rim[0], rim[-1]), ends, strict=True) if end is not None]
    return (
        Area(np.array([bar[0], *rim]), Role.LANE),
        *(Line(np.array([bar[0], point]), Role.LANE) for point in shown),
    )


def _closed(ends: Sequence[float | None], depth: float) -> tuple[float, float]:
    """Both ends; one that is open lies ``depth`` beyond the other."""
    low, high = ends
    if low is None:
        assert high is not None, "a bound has an end"
        return high - depth, high
    return low, low + depth if high is None else high
