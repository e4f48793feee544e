"""What a soak has noted so far: files that a kill leaves readable but for a last half line."""

import json
from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, TypeVar

from baycue.errors import OutputError
from baycue.live.vitals import Vitals
from baycue.rehearsal.process_look import ProcessLook

FACTS, LOOKS, VITALS, SAID = "soak.json", "looks.jsonl", "vitals.jsonl", "live.log"

Item = TypeVar("Item")


@dataclass(frozen=True, slots=True)
class SoakFacts:
    """How it was begun.  ``heard``: with screen and sound; else ``lacking`` says why not."""

    command: str
    begun: str
    machine: str
    start_ns: int
    minutes: float
    films_gb: float
    lacking: str | None


@dataclass(frozen=True, slots=True)
class Look:
    """One look from outside, at a time of the monotonic clock.

    ``live`` and ``scoring``: the two processes of the session; ``camera``: the one that shows.
    ``sent``, ``swings``: pictures and swings shown so far; ``load``: the machine's load average
    over a minute, this soak's own part in it.
    """

    at_ns: int
    live: ProcessLook | None
    scoring: ProcessLook | None
    camera: ProcessLook | None
    sent: int
    swings: int
    load: float


@dataclass(frozen=True, slots=True)
class SoakRecord:
    """All of it, in order of time."""

    facts: SoakFacts
    looks: tuple[Look, ...]
    vitals: tuple[Vitals, ...]

    @property
    def lasted_s(self) -> float:
        """Until the last look."""
        return (self.looks[-1].at_ns - self.facts.start_ns) / 1e9 if self.looks else 0.0


def read_record(folder: Path) -> SoakRecord:
    """OutputError if no soak was begun there."""
    try:
        facts = SoakFacts(**json.loads((folder / FACTS).read_text(encoding="utf-8")))
    except (OSError, ValueError, TypeError):
        raise OutputError(f"{folder}: holds no {FACTS} of a soak") from None
    looks, vitals = _lines(folder / LOOKS, _look), _lines(folder / VITALS, _vitals)
    return SoakRecord(facts, looks, vitals)


def newest_vitals(folder: Path) -> Vitals | None:
    """The last whole line, while they are being written; None if there is none yet."""
    lines = _whole_lines(folder / VITALS)
    return _vitals(json.loads(lines[-1])) if lines else None


def line_of(look: Look) -> str:
    """As it is written."""
    return f"{json.dumps(asdict(look))}\n"


def _lines(file: Path, made: Callable[[Any], Item]) -> tuple[Item, ...]:
    return tuple(made(json.loads(line)) for line in _whole_lines(file))


def _whole_lines(file: Path) -> list[str]:
    """None if there is no such file yet; what a kill has cut off is no line."""
    if not file.exists():
        return []
    whole, _, _ = file.read_text(encoding="utf-8").rpartition("\n")
    return whole.splitlines()


def _look(told: Any) -> Look:
    looks = {k: told[k] and ProcessLook(**told[k]) for k in ("live", "scoring", "camera")}
    return Look(**{**told, **looks})


def _vitals(told: Any) -> Vitals:
    return Vitals(
        **{**told, "processes": tuple(told["processes"]), "answers_ms": tuple(told["answers_ms"])}
    )
