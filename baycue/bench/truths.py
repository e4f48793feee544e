"""The true answer to what a target asks."""

from baycue.measures.when import Extreme, When
from baycue.synthetic.true_tracks import TrueTrack
from baycue.synthetic.truth import TrueSwing


def true_answer(true: TrueSwing, measure: str, when: When) -> float:
    """What the measure, taken so, would be without error.

    ``when`` as ``Measure.asked`` has it.  Raises KeyError for a measure whose truth is not known.
    """
    if not (when.start and when.end):
        return true.wholes[measure]
    track, start, end = true.tracks[measure], when.start.value, when.end.value
    if when.extreme is None:
        return track.at[start] if start == end else track.change(start, end)
    zero = track.at[when.against.value] if when.against else 0.0
    return _extreme(track, start, end, when.extreme, zero)


def _extreme(track: TrueTrack, start: str, end: str, extreme: Extreme, zero: float) -> float:
    high, low = track.largest_over(start, end) - zero, track.least_over(start, end) - zero
    if extreme is Extreme.FURTHEST:
        return high if high >= -low else low
    return high if extreme is Extreme.LARGEST else low
