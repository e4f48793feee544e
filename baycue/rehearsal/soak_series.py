"""What a soak noted, as series over time: which there are, and how much of a rise is no matter."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from baycue.rehearsal.process_look import ProcessLook
from baycue.rehearsal.slope import Slope, in_words, slope
from baycue.rehearsal.soak_record import Look, SoakRecord

_SETTLED_SHARE, _SETTLED_MOST_S = 0.2, 900.0
Points = Sequence[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Series:
    """Values at seconds from the start.  ``negligible``: a slope an hour that is no matter."""

    name: str
    unit: str
    negligible: float
    at_s: tuple[float, ...]
    values: tuple[float, ...]

    def since(self, from_s: float) -> "Series":
        """The later part."""
        kept = [(t, v) for t, v in zip(self.at_s, self.values, strict=True) if t >= from_s]
        at_s, values = tuple(t for t, _ in kept), tuple(v for _, v in kept)
        return Series(self.name, self.unit, self.negligible, at_s, values)

    @property
    def slope(self) -> Slope | None:
        """None for too few values."""
        return slope(self.at_s, self.values) if len(self.values) > 2 else None

    @property
    def verdict(self) -> str:
        """Flat, rising, falling or not known, in words."""
        found = self.slope
        return in_words(found, self.negligible, self.unit) if found else "not known: too few values"


def warm_up_s(lasted_s: float) -> float:
    """What is left out of slopes: the first fifth, in which buffers fill, at most 15 minutes."""
    return min(_SETTLED_SHARE * lasted_s, _SETTLED_MOST_S)


def series(record: SoakRecord) -> tuple[Series, ...]:
    """All that are plotted, from the start."""
    return (
        _looked(record, "memory, both processes", "MB", 10.0, _both(lambda p: p.resident_mb)),
        _looked(record, "memory, live process", "MB", 10.0, _live(lambda p: p.resident_mb)),
        _looked(record, "memory, scoring process", "MB", 10.0, _scoring(lambda p: p.resident_mb)),
        _told(record, "heap in use, live process", "MB", 10.0, "heap_used_mb", 1.0),
        _told(record, "heap held free, live process", "MB", 10.0, "heap_free_mb", 1.0),
        _told(record, "Python's small objects, live process", "thousand", 10.0, "python_blocks"),
        _looked(record, "threads, both", "", 0.5, _both(lambda p: p.threads)),
        _looked(record, "file handles, both", "", 0.5, _both(lambda p: p.handles)),
        _made(record, "software latency, each swing", "ms", 20.0, _latencies(record)),
        _made(record, "poses a second", "a second", 1.0, _poses(record)),
        _made(record, "processor, both", "cores", 0.1, _cores(record)),
    )


def _made(record: SoakRecord, name: str, unit: str, negligible: float, points: Points) -> Series:
    at_s = tuple((at_ns - record.facts.start_ns) / 1e9 for at_ns, _ in points)
    return Series(name, unit, negligible, at_s, tuple(value for _, value in points))


def _looked(
    record: SoakRecord,
    name: str,
    unit: str,
    negligible: float,
    read: Callable[[Look], float | None],
) -> Series:
    read_all = ((look.at_ns, read(look)) for look in record.looks)
    points = [(at_ns, value) for at_ns, value in read_all if value is not None]
    return _made(record, name, unit, negligible, points)


def _told(
    record: SoakRecord, name: str, unit: str, negligible: float, field: str, per: float = 1e3
) -> Series:
    read_all = ((v.at_ns, getattr(v, field)) for v in record.vitals)
    points = [(at_ns, value / per) for at_ns, value in read_all if value is not None]
    return _made(record, name, unit, negligible, points)


def _live(read: Callable[[ProcessLook], float]) -> Callable[[Look], float | None]:
    return lambda look: read(look.live) if look.live else None


def _scoring(read: Callable[[ProcessLook], float]) -> Callable[[Look], float | None]:
    return lambda look: read(look.scoring) if look.scoring else None


def _both(read: Callable[[ProcessLook], float]) -> Callable[[Look], float | None]:
    def both(look: Look) -> float | None:
        return read(look.live) + read(look.scoring) if look.live and look.scoring else None

    return both


def _latencies(record: SoakRecord) -> Points:
    return [(v.at_ns, ms) for v in record.vitals for ms in v.answers_ms if ms is not None]


def _poses(record: SoakRecord) -> Points:
    return [
        (after.at_ns, (after.poses - before.poses) / (after.at_ns - before.at_ns) * 1e9)
        for before, after in pairwise(record.vitals)
        if after.at_ns - before.at_ns > 1e9
    ]


def _cores(record: SoakRecord) -> Points:
    looked = [(k.at_ns, _both(lambda p: p.cpu_s)(k)) for k in record.looks]
    known = [(at_ns, cpu_s) for at_ns, cpu_s in looked if cpu_s is not None]
    return [
        (b_ns, (b - a) / (b_ns - a_ns) * 1e9) for (a_ns, a), (b_ns, b) in pairwise(known) if b >= a
    ]
