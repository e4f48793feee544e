"""What the swings of a report come to, target by target."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from math import floor

from baycue.coach_report.record import (
    PracticeAnswer,
    PracticeRecord,
    PracticeSession,
    PracticeSwing,
)
from baycue.folder.summary import Tally, tally
from baycue.plan.target import Target
from baycue.verdict.verdict import Outcome


@dataclass(frozen=True, slots=True)
class Shown:
    """A swing with its answer to one target, and where it came from; sessions count from 1."""

    session: int
    swing: PracticeSwing
    answer: PracticeAnswer


@dataclass(frozen=True, slots=True)
class SessionFigures:
    """One target in one session: all of its practice swings, and its two halves."""

    number: int
    day: str
    whole: Tally
    halves: tuple[Tally, Tally]


@dataclass(frozen=True, slots=True)
class TargetFigures:
    """One target over the whole report.

    ``practice`` leaves out the probes, which are in ``probes``; ``shown`` holds all.
    """

    target: Target
    shown: tuple[Shown, ...]
    practice: Tally
    probes: Tally
    sessions: tuple[SessionFigures, ...]

    @property
    def best(self) -> Shown | None:
        """The pass with the widest margin."""
        passes = self._with(Outcome.PASS)
        return max(passes, key=_margin) if passes else None

    @property
    def typical_fail(self) -> Shown | None:
        """The fail whose margin is the middle one of all fails."""
        fails = sorted(self._with(Outcome.FAIL), key=_margin)
        return fails[len(fails) // 2] if fails else None

    def _with(self, outcome: Outcome) -> list[Shown]:
        return [
            s for s in self.shown if s.answer.outcome is outcome and s.answer.margin is not None
        ]


def figures_of(record: PracticeRecord) -> tuple[TargetFigures, ...]:
    """Each target's figures; a target whose bound was changed counts as another."""
    shown: dict[Target, list[Shown]] = {}
    for number, session in enumerate(record.sessions, 1):
        for swing in session.swings:
            for answer in swing.answers:
                shown.setdefault(answer.target, []).append(Shown(number, swing, answer))
    return tuple(_figures(target, tuple(found), record) for target, found in shown.items())


def outcomes_of(record: PracticeRecord) -> Tally:
    """All swings that could be judged."""
    swings = (swing for session in record.sessions for swing in session.swings)
    return tally(swing.outcome.value for swing in swings if swing.outcome)


def fewest_for_a_chart(pass_rate: float) -> int:
    """The smallest block of which a p-chart's limits both lie within 0 and 1.

    More than 9 (1 - p) / p swings for the lower one (Montgomery, Introduction to Statistical
    Quality Control; from memory), and as many of the failures for the upper one: 22 at pass
    rates of 0.3 and 0.7, 10 at 0.5.  ValueError unless 0 < ``pass_rate`` < 1.
    """
    if not 0 < pass_rate < 1:
        raise ValueError(f"no limits at a pass rate of {pass_rate}")
    rarer = min(pass_rate, 1 - pass_rate)
    return floor(9 * (1 - rarer) / rarer + 1e-9) + 1


def _figures(target: Target, shown: tuple[Shown, ...], record: PracticeRecord) -> TargetFigures:
    sessions = (
        _session(number, session, [s for s in shown if s.session == number and not s.swing.probe])
        for number, session in enumerate(record.sessions, 1)
    )
    return TargetFigures(
        target=target,
        shown=shown,
        practice=_tally(shown, lambda s: not s.swing.probe),
        probes=_tally(shown, lambda s: s.swing.probe),
        sessions=tuple(s for s in sessions if s is not None),
    )


def _session(number: int, session: PracticeSession, shown: list[Shown]) -> SessionFigures | None:
    if not shown:
        return None
    half = (len(shown) + 1) // 2
    halves = _tally(shown[:half]), _tally(shown[half:])
    return SessionFigures(number, session.day, _tally(shown), halves)


def _tally(shown: Iterable[Shown], wanted: Callable[[Shown], bool] = lambda _: True) -> Tally:
    return tally(s.answer.word for s in shown if wanted(s))


def _margin(shown: Shown) -> float:
    assert shown.answer.margin is not None
    return shown.answer.margin
