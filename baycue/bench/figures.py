"""From records to figures; no clock, no file, no chance."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from baycue.bench.coach import ASKED, Asked
from baycue.bench.events import EventShares, event_shares
from baycue.bench.record import Record, Stated
from baycue.bench.slices import ALL_SLICES
from baycue.bench.statistics import Coverage, Errors, coverage_of, errors_of
from baycue.bench.verdicts import Verdicts, verdicts_on
from baycue.swing.swing import TIME_FREEDOM

CHECKPOINTS = ("takeaway", "P2", "P3", "top", "P5", "P6", "impact", "P8")


@dataclass(frozen=True, slots=True)
class Quantity:
    """Something stated and true of a swing, times ``per_unit`` for printing in ``unit``.

    ``freedom``: how heavy the tails of its errors are said to be, as in
    ``statistics.within_sigmas``.
    """

    name: str
    unit: str
    per_unit: float
    stated: Callable[[Record], Stated | None]
    true: Callable[[Record], float]
    freedom: float = float("inf")

    def error(self, record: Record) -> float | None:
        """Stated less true, in ``unit``; None if not stated."""
        stated = self.stated(record)
        return None if stated is None else (stated.value - self.true(record)) * self.per_unit

    def sigma(self, record: Record) -> float:
        """The stated sigma, in ``unit``; NaN if not stated."""
        stated = self.stated(record)
        return float("nan") if stated is None else stated.sigma * self.per_unit


@dataclass(frozen=True, slots=True)
class Figures:
    """All figures; ``errors`` by slice and quantity, the rest over all swings.

    ``found_share``: exactly one swing found where there is exactly one.  ``frame_errors``:
    errors of the checkpoints in frames.
    """

    seed: int
    swings: int
    found_share: float
    refused: dict[int, str]
    errors: dict[str, dict[str, Errors]]
    frame_errors: dict[str, Errors]
    coverage: dict[str, Coverage]
    verdicts: dict[str, Verdicts]
    events: EventShares


def figures_of(records: Sequence[Record]) -> Figures:
    """Every figure of some records, which must be at least one."""
    found = [record for record in records if record.swings_found == 1]
    return Figures(
        seed=records[0].draw.seed,
        swings=len(records),
        found_share=len(found) / len(records),
        refused={r.draw.number: r.error or "no swing" for r in records if not r.swings_found},
        errors=_sliced(records),
        frame_errors={q.name: _errors_in_frames(q, records) for q in TIMES},
        coverage={q.name: _coverage(q, records) for q in QUANTITIES},
        verdicts={asked.name: verdicts_on(asked, records) for asked in ASKED},
        events=event_shares(records),
    )


def _sliced(records: Sequence[Record]) -> dict[str, dict[str, Errors]]:
    slices = {s.name: [r for r in records if s.holds(r.draw)] for s in ALL_SLICES}
    return {
        name: {q.name: errors_in(q, some) for q in QUANTITIES}
        for name, some in slices.items()
        if some
    }


def errors_in(quantity: Quantity, records: Sequence[Record]) -> Errors:
    """The errors of one quantity over some records."""
    errors = [quantity.error(record) for record in records]
    known = [error for error in errors if error is not None]
    return errors_of(known, len(errors) - len(known))


def _errors_in_frames(quantity: Quantity, records: Sequence[Record]) -> Errors:
    errors = [(quantity.error(record), record.draw.fps) for record in records]
    known = [e / quantity.per_unit * fps for e, fps in errors if e is not None]
    return errors_of(known, len(errors) - len(known))


def _coverage(quantity: Quantity, records: Sequence[Record]) -> Coverage:
    pairs = [(quantity.error(record), quantity.sigma(record)) for record in records]
    known = [(error, sigma) for error, sigma in pairs if error is not None]
    return coverage_of([e for e, _ in known], [s for _, s in known], quantity.freedom)


def _time(name: str) -> Quantity:
    def stated(record: Record) -> Stated | None:
        return record.seen.checkpoints_s.get(name) if record.seen else None

    def true(record: Record) -> float:
        return record.true.checkpoints_s[name]

    return Quantity(name, "ms", 1e3, stated, true, TIME_FREEDOM)


def _measure(asked: Asked) -> Quantity:
    def stated(record: Record) -> Stated | None:
        return record.seen.measures.get(asked.name) if record.seen else None

    unit, per_unit = ("mm", 1e3) if asked.unit.value == "m" else (asked.unit.value, 1.0)
    return Quantity(asked.name, unit, per_unit, stated, lambda record: asked.truth(record.true))


TIMES = tuple(_time(name) for name in CHECKPOINTS)
MEASURES = tuple(_measure(asked) for asked in ASKED)
QUANTITIES = (*TIMES, *MEASURES)
