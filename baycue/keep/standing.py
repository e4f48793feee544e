"""How a session stands, so that one that is killed can go on where it was."""

import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from baycue.keep.codec import from_plain, to_plain
from baycue.keep.record import SwingRecord
from baycue.verdict.verdict import Outcome, SwingVerdict

STANDING_FILE = "standing.json"
_FORMAT, _VERSION = "baycue standing", 1


@dataclass(frozen=True, slots=True)
class PracticePlace:
    """How far a laid-out session is.

    ``plan``: its place among the plans.  ``goes``: block and drill of every go, which tell whether
    the plan still lays out the same.  ``number``: the go that is next.  ``done``: in each block.
    """

    plan: int
    goes: tuple[tuple[int, int], ...]
    number: int
    done: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Standing:
    """``number``: of the last swing seen; the counts are those of the screen."""

    number: int = 0
    balls: int = 0
    passes: int = 0
    run_of_passes: int = 0
    practice_swings: int = 0
    places: tuple[PracticePlace, ...] = ()

    def caught_up(self, records: Sequence[SwingRecord]) -> "Standing":
        """With the swings that were kept after it was."""
        standing = self
        for record in sorted(records, key=lambda r: r.number):
            if record.number > standing.number:
                standing = standing._after(record)
        return standing

    def _after(self, record: SwingRecord) -> "Standing":
        passed = record.scored is not None and record.scored.verdict.outcome is Outcome.PASS
        breaks = record.scored is not None and not passed
        counts = record.go is None or not record.go.probe
        return replace(
            self,
            number=record.number,
            balls=self.balls + counts,
            passes=self.passes + (counts and passed),
            run_of_passes=0 if breaks else self.run_of_passes + (counts and passed),
            places=tuple(_moved(place, record) for place in self.places),
        )


@dataclass(frozen=True, slots=True)
class GoneGo:
    """A go of a laid-out session that was judged: its block, its title, whether it was silent."""

    block: int
    title: str
    probe: bool
    verdict: SwingVerdict


def gone_goes(records: Sequence[SwingRecord]) -> tuple[GoneGo, ...]:
    """The goes among what was kept, in order."""
    return tuple(
        GoneGo(r.go.place.block, r.go.block, r.go.probe, r.scored.verdict)
        for r in sorted(records, key=lambda r: r.number)
        if r.go is not None and r.scored is not None
    )


def write_standing(folder: Path, standing: Standing) -> None:
    """In place of the one before, which is there until this one is whole; OSError if it fails."""
    partial = folder / f"{STANDING_FILE}.new"
    document = {"format": _FORMAT, "version": _VERSION, "standing": to_plain(standing)}
    partial.write_text(json.dumps(document), encoding="utf-8")
    partial.replace(folder / STANDING_FILE)


def read_standing(folder: Path) -> Standing:
    """The last one; at the start if there is none that can be read."""
    try:
        document = json.loads((folder / STANDING_FILE).read_text(encoding="utf-8"))
        if document["format"] != _FORMAT or document["version"] != _VERSION:
            return Standing()
        standing: Standing = from_plain(Standing, document["standing"])
    except (OSError, ValueError, KeyError, TypeError):
        return Standing()
    return standing


def _moved(place: PracticePlace, record: SwingRecord) -> PracticePlace:
    """One go on, if the swing was the one that was next."""
    go = record.go
    if go is None or place.number >= len(place.goes):
        return place
    if place.goes[place.number] != (go.place.block, go.place.drill):
        return place
    done = tuple(d + (k == go.place.block) for k, d in enumerate(place.done))
    return replace(place, number=place.number + 1, done=done)
