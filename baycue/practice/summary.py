"""Some swings told together."""

from dataclasses import dataclass

from baycue.counted import counted
from baycue.verdict.verdict import Outcome, SwingVerdict

_VALUES_TOLD = 6


@dataclass(frozen=True, slots=True)
class SummaryRow:
    """One target over all of them: how often it was met, and the values in the coach's unit.

    ``values`` is empty where there are too many to read.
    """

    title: str
    passes: int
    swings: int
    values: str


@dataclass(frozen=True, slots=True)
class Summary:
    """``outcomes`` oldest first; a row for each target that any of the swings was judged by."""

    outcomes: tuple[Outcome, ...]
    rows: tuple[SummaryRow, ...]

    @property
    def words(self) -> str:
        """A line for a terminal."""
        passes = self.outcomes.count(Outcome.PASS)
        last = f"the last {counted(len(self.outcomes), 'swing')}"
        rows = "; ".join(f"{row.title} {row.passes} of {row.swings}" for row in self.rows)
        return f"{last}: {passes} passed ({rows})"


def summary_of(verdicts: tuple[SwingVerdict, ...]) -> Summary:
    """What to tell of at least one swing."""
    titles = dict.fromkeys(t.target_name for verdict in verdicts for t in verdict.targets)
    outcomes = tuple(verdict.outcome for verdict in verdicts)
    return Summary(outcomes, tuple(_row(title, verdicts) for title in titles))


def _row(title: str, verdicts: tuple[SwingVerdict, ...]) -> SummaryRow:
    answers = [t for v in verdicts for t in v.targets if t.target_name == title]
    passes = sum(answer.outcome is Outcome.PASS for answer in answers)
    values = [answer.said.value if answer.said else "?" for answer in answers]
    told = ", ".join(values) if len(values) <= _VALUES_TOLD else ""
    return SummaryRow(title, passes, len(answers), told)
