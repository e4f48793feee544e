"""One swing's film, from the reel."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from baycue.keep.film import CODEC, FilmWriter
from baycue.keep.place import FILM_SUFFIX, swing_stem
from baycue.keep.record import Film
from baycue.keep.reel import Reel
from baycue.spine import ScoredSwing
from baycue.swing.swing import CheckpointName

BEFORE_TAKEAWAY_NS = 1_500_000_000
AFTER_FINISH_NS = 1_000_000_000
_LONGEST_BEFORE_IMPACT_NS = 4_500_000_000
_IMPACT_TO_FINISH_NS = 2_000_000_000
"""Hands that have not come to rest by then count as at rest."""
_SILENCE_S = 1.5
_LOOK_S = 0.1


@dataclass(frozen=True, slots=True)
class Span:
    """From when to when a swing is filmed; stamps, ns."""

    since_ns: int
    until_ns: int


def span_of(swing: ScoredSwing | None, impact_ns: int) -> Span:
    """From 1.5 s before takeaway to 1 s after the finish, or as near as is known.

    ``swing``: None for one that could not be judged.
    """
    takeaway = finish = None
    if swing is not None:
        takeaway = swing.evidence.swing.at(CheckpointName.TAKEAWAY)
        finish = swing.evidence.swing.at(CheckpointName.FINISH)
    since_ns = impact_ns - _LONGEST_BEFORE_IMPACT_NS
    if takeaway is not None:
        since_ns = takeaway.time_ns - BEFORE_TAKEAWAY_NS
    finish_ns = finish.time_ns if finish else impact_ns + _IMPACT_TO_FINISH_NS
    return Span(since_ns, finish_ns + AFTER_FINISH_NS)


def promised_film(reel: Reel, span: Span, number: int) -> Film | None:
    """What is known of a film that is about to be written: its name and its first stamp."""
    first = next(iter(reel.shots.between(span.since_ns, span.until_ns)), None)
    name = swing_stem(number) + FILM_SUFFIX
    return Film(name, CODEC, 0, 0, (first.stamp_ns,), 0, 0) if first else None


def film_swing(
    reel: Reel, path: Path, span: Callable[[], Span], is_closing: Callable[[], bool]
) -> Film | None:
    """Film a swing that may still go on; None if there is not one picture of it.

    ``span`` is asked again and again, for the finish is known late.  Ends early when the camera
    says nothing for 1.5 s or the session closes.  OutputError if the disk refuses.
    """
    writer = FilmWriter(path)
    try:
        last, silent_s = -1, 0.0
        while silent_s < _SILENCE_S and not (is_closing() and silent_s):
            shots = reel.shots.wait_beyond(last, _LOOK_S)
            silent_s = 0.0 if shots or reel.is_behind else silent_s + _LOOK_S
            for shot in shots:
                last = shot.index
                if shot.stamp_ns > span().until_ns:
                    return writer.finish()
                if shot.stamp_ns >= span().since_ns:
                    writer.write(shot)
        return writer.finish()
    finally:
        writer.leave()
