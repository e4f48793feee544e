"""What a report is made of: a student's sessions, their swings, and what each was asked."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from baycue.plan.target import Target
from baycue.verdict.verdict import Outcome


@dataclass(frozen=True, slots=True)
class PracticeAnswer:
    """One target's answer; value and margin in the measure's unit, None if not measured."""

    target: Target
    outcome: Outcome
    value: float | None
    margin: float | None

    @property
    def word(self) -> str:
        """The outcome, but "not measured" where there was nothing to call."""
        return "not measured" if self.value is None else self.outcome.value


@dataclass(frozen=True, slots=True)
class PracticeSwing:
    """One swing; ``outcome`` is None if it could not be judged.

    ``probe``: whether its answer was kept silent to see what stays.  ``sidecar`` and ``film``
    hold what was seen of it, if that was kept.
    """

    number: int
    outcome: Outcome | None
    answers: tuple[PracticeAnswer, ...]
    probe: bool = False
    sidecar: Path | None = None
    film: Path | None = None


@dataclass(frozen=True, slots=True)
class PracticeSession:
    """One session; ``note`` is anything the reader must know, such as that it was cut off.

    ``coach_notes``: what the coach has said of it since.
    """

    started: datetime
    source: str
    swings: tuple[PracticeSwing, ...]
    note: str = ""
    coach_notes: tuple[str, ...] = ()

    @property
    def day(self) -> str:
        """The day and time as people write them, local."""
        return self.started.astimezone().strftime("%Y-%m-%d %H:%M")


@dataclass(frozen=True, slots=True)
class PracticeRecord:
    """A student's sessions in order of time; ``coach_notes``: what the plans say beside targets."""

    student: str
    sessions: tuple[PracticeSession, ...]
    coach_notes: tuple[str, ...] = ()
