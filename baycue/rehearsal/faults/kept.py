"""Afterwards: is everything that was told still there and whole?"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from baycue.keep.check import check, repair
from baycue.keep.recover import sidecars
from baycue.keep.sidecar import read_sidecar
from baycue.rehearsal.faults.bay import Bay

_EXCUSED = re.compile(r"swing (\d+) is not kept")


@dataclass(frozen=True, slots=True)
class Afterwards:
    """``lost``: in words.  ``badly``: what should not be; empty if all is as it should be."""

    lost: str
    badly: str


def look_over(bay: Bay, may_be_hurt: bool) -> Afterwards:
    """Check the log, every sidecar and every film from end to end.

    ``may_be_hurt``: what is wrong counts only if it still is after a repair.
    """
    hurt = check(bay.place, every_byte=True).wrong if bay.place.folder.exists() else []
    if hurt and may_be_hurt:
        repair(bay.place)
    wrong = check(bay.place, every_byte=True).wrong if hurt else []
    missing, filmless = _missing(bay), _filmless(bay)
    told = {int(m[1]) for line in bay.lines if (m := _EXCUSED.match(line.text))}
    lost = [f"swing {n}, as told" if n in told else f"swing {n}" for n in sorted(missing)]
    lost += [f"the film of swing {n}, as told" for n in filmless]
    if hurt and not wrong:
        lost.append("nothing once repaired")
    return Afterwards(", ".join(lost) or "nothing", _badly(wrong, missing - told))


def _badly(wrong: list[str], silently_lost: set[int]) -> str:
    faults = [f"after the end: {line}" for line in wrong[:3]]
    faults += [f"swing {number} was told and is not kept" for number in sorted(silently_lost)]
    return "; ".join(faults)


def _missing(bay: Bay) -> set[int]:
    """Swings that were told and have no sidecar."""
    kept = {int(path.name[6:9]) for path in _sidecars(bay)}
    return {number for number, _ in bay.verdicts()} - kept


def _filmless(bay: Bay) -> list[int]:
    records = (read_sidecar(path) for path in _sidecars(bay))
    return sorted(record.number for record in records if record.film is None)


def _sidecars(bay: Bay) -> Iterator[Path]:
    for marker in bay.place.students.glob("*/*/session.json"):
        yield from sidecars(marker.parent)
