"""A session that was cut off a short while ago and can go on."""

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from baycue.errors import KeptError
from baycue.keep.folders import SessionFacts
from baycue.keep.record import SwingRecord
from baycue.keep.recover import sidecars
from baycue.keep.sidecar import read_sidecar
from baycue.keep.standing import STANDING_FILE, GoneGo, Standing, gone_goes, read_standing

RESUMED_WITHIN_S = 20 * 60
"""Since the last thing kept.  Who comes back later begins anew."""


@dataclass(frozen=True, slots=True)
class CutOff:
    """A session that nobody ended, made whole; ``folder``: its files."""

    facts: SessionFacts
    folder: Path


@dataclass(frozen=True, slots=True)
class Resumed:
    """What goes on: each student's session, how it stood, and the goes judged so far."""

    facts: tuple[SessionFacts, ...] = ()
    standing: Standing = field(default_factory=Standing)
    goes: tuple[GoneGo, ...] = ()


def resumed(cut_off: Sequence[CutOff], students: Sequence[str], now: datetime) -> Resumed:
    """The sessions of these students that were cut off shortly before ``now``, the newest each.

    A clock that was set back does not matter as long as it was not by more than that time.
    """
    newest: dict[str, tuple[CutOff, float]] = {}
    for each in cut_off:
        last_s = _last_kept_s(each)
        student = each.facts.student
        fresh = abs(now.timestamp() - last_s) <= RESUMED_WITHIN_S
        if fresh and student in students and last_s >= newest.get(student, (each, 0.0))[1]:
            newest[student] = (each, last_s)
    if not newest:
        return Resumed()
    chosen = [each for each, _ in newest.values()]
    records = [record for each in chosen for record in _records(each.folder)]
    standing = max((read_standing(each.folder) for each in chosen), key=lambda s: s.number)
    facts = tuple(each.facts for each in chosen)
    return Resumed(facts, standing.caught_up(records), gone_goes(records))


def _last_kept_s(cut_off: CutOff) -> float:
    """When anything was last kept there, what was made whole since left out."""
    told = [cut_off.facts.started_utc, *(r.at_utc for r in _records(cut_off.folder))]
    times = [datetime.fromisoformat(at_utc).timestamp() for at_utc in told]
    with suppress(OSError):
        times.append((cut_off.folder / STANDING_FILE).stat().st_mtime)
    return max(times)


def _records(folder: Path) -> list[SwingRecord]:
    found = []
    for path in sidecars(folder):
        try:
            found.append(read_sidecar(path))
        except KeptError:
            continue  # told by the check
    return found
