"""What the set-up check found: one row a matter, go or not, and what to move which way."""

from dataclasses import dataclass
from enum import Enum


class Answer(Enum):
    """Whether a matter is fit for swings to be judged."""

    GO = "go"
    NO_GO = "no-go"
    UNSURE = "unsure"


@dataclass(frozen=True, slots=True)
class SetUpRow:
    """One matter: ``found`` says what was measured, ``do`` what to move and which way.

    ``do`` is empty for a go.
    """

    name: str
    answer: Answer
    found: str
    do: str = ""


@dataclass(frozen=True, slots=True)
class SetUpReport:
    """All rows, in the order in which they are best put right."""

    rows: tuple[SetUpRow, ...]

    @property
    def ready(self) -> bool:
        """Whether nothing says no; what is unsure does not stop a session."""
        return not self.of(Answer.NO_GO)

    def of(self, answer: Answer) -> tuple[SetUpRow, ...]:
        """The rows so answered."""
        return tuple(row for row in self.rows if row.answer is answer)
