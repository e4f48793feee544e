"""Event finding by the tolerance of a published benchmark, as an anchor from outside.

McNally et al. 2019, "GolfDB: A Video Database for Golf Swing Sequencing", CVPR workshops,
arXiv 1903.06528: an event counts as found if it is within max(round(n / 30), 1) frames of its
label, where n is the number of frames from address to impact; their mean over eight events
was 76.1 %.  Theirs are real swings filmed from many sides; ours are synthetic swings from one
side, so that the two shares stand side by side and do not compete.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from baycue.bench.record import Record

PUBLISHED_MEAN = 0.761
EVENTS = {
    "address": "takeaway",
    "shaft parallel back": "P2",
    "arm parallel back": "P3",
    "top": "top",
    "arm parallel down": "P5",
    "impact": "impact",
    "shaft parallel through": "P8",
}
"""Seven of the eight; the finish is beyond what is rendered.  Their address is the last still
frame, which is our takeaway."""


@dataclass(frozen=True, slots=True)
class EventShares:
    """The share, 0 to 1, of swings in which each event was found, and the mean over events."""

    each: dict[str, float]
    mean: float


def event_shares(records: Sequence[Record]) -> EventShares:
    """A swing or event that was not found counts as a miss."""
    each = {
        event: sum(_found(record, name) for record in records) / max(len(records), 1)
        for event, name in EVENTS.items()
    }
    return EventShares(each, sum(each.values()) / len(each))


def tolerance_frames(address_to_impact_frames: int) -> int:
    """max(round(n / 30), 1), as published."""
    return max(round(address_to_impact_frames / 30), 1)


def _found(record: Record, name: str) -> bool:
    stated = record.seen.checkpoints_s.get(name) if record.seen else None
    if stated is None:
        return False
    fps, true_s = record.draw.fps, record.true.checkpoints_s
    allowed = tolerance_frames(round((true_s["impact"] - true_s["takeaway"]) * fps))
    return abs(round(stated.value * fps) - round(true_s[name] * fps)) <= allowed
