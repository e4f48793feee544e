"""Which of the swings shown were not answered, and when that was."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from baycue.rehearsal.soak_record import Look, SoakRecord

_ANSWERED_WITHIN_NS = 8_000_000_000
"""Of being shown, however busy the machine is; the next swing is 20 s away."""


@dataclass(frozen=True, slots=True)
class MissedSwing:
    """A swing shown between two looks, seconds from the start, that nothing was told of.

    ``poses_per_s``: looked at around then; None if that is not known.  ``load``: the machine's.
    """

    number: int
    from_s: float
    to_s: float
    poses_per_s: float | None
    load: float


@dataclass(frozen=True, slots=True)
class _Shown:
    number: int
    since: Look
    until: Look


def missed(record: SoakRecord) -> tuple[MissedSwing, ...]:
    """In order of time; what was shown too late to be answered yet is left out."""
    answers = list(_answers(record))
    found = []
    for shown in _shown(record):
        late_ns = shown.until.at_ns + _ANSWERED_WITHIN_NS
        if not record.vitals or late_ns > record.vitals[-1].at_ns:
            break
        answers = [each for each in answers if each[1] > shown.since.at_ns]
        if answers and answers[0][0] < late_ns:
            answers.pop(0)
        else:
            found.append(_missed(record, shown))
    return tuple(found)


def _shown(record: SoakRecord) -> Iterator[_Shown]:
    for before, after in pairwise(record.looks):
        for number in range(before.swings + 1, after.swings + 1):
            yield _Shown(number, before, after)


def _answers(record: SoakRecord) -> Iterator[tuple[int, int]]:
    """Between which lines of vitals each was told, judged or not."""
    for before, after in pairwise(record.vitals):
        yield from ((before.at_ns, after.at_ns) for _ in after.answers_ms)


def _missed(record: SoakRecord, shown: _Shown) -> MissedSwing:
    from_s, to_s = (
        (look.at_ns - record.facts.start_ns) / 1e9 for look in (shown.since, shown.until)
    )
    rate = _poses_per_s(record, shown.until.at_ns)
    return MissedSwing(shown.number, from_s, to_s, rate, shown.until.load)


def _poses_per_s(record: SoakRecord, at_ns: int) -> float | None:
    for before, after in pairwise(record.vitals):
        if before.at_ns < at_ns <= after.at_ns:
            return (after.poses - before.poses) / (after.at_ns - before.at_ns) * 1e9
    return None
