"""What a soak counts: frames, swings and the most memory, as lines for a table."""

from baycue.rehearsal.latency import spread
from baycue.rehearsal.soak_record import Look, SoakRecord
from baycue.rehearsal.soak_series import series

_UNDER_WAY_NS = 100_000_000


def counts(record: SoakRecord) -> tuple[tuple[str, str], ...]:
    """Each with its name; the record must hold a look and a line of vitals."""
    last, look = record.vitals[-1], _before_the_last_vitals(record)
    answers = [ms for v in record.vitals for ms in v.answers_ms]
    told = spread([ms for ms in answers if ms is not None])
    memory, poses = (
        next(s for s in series(record) if s.name == name)
        for name in ("memory, both processes", "poses a second")
    )
    seconds = (last.at_ns - record.vitals[0].at_ns) / 1e9
    poses_a_second = (last.poses - record.vitals[0].poses) / seconds if seconds else 0.0
    least = f"; least over five seconds {min(poses.values):.1f}" if poses.values else ""
    loads = sorted(look.load for look in record.looks)
    return (
        ("time", f"{record.lasted_s / 60:.1f} minutes"),
        ("frames shown", str(look.sent)),
        ("frames lost before the ring", str(max(look.sent - last.frames - 1, 0))),
        ("frames left out by the camera, or damaged", str(last.lost)),
        ("camera opened, times", str(last.times_opened)),
        ("swings shown", str(look.swings)),
        ("swings answered", str(len(answers))),
        ("of these not judged", str(sum(ms is None for ms in answers))),
        (
            "software latency, ms: median, 95th percentile, largest",
            f"{told.median:.0f}, {told.p95:.0f}, {told.largest:.0f}" if told else "none",
        ),
        ("poses a second", f"{poses_a_second:.1f}{least}"),
        ("memory of both processes, most", f"{max(memory.values, default=0.0):.0f} MB"),
        ("load of the machine, median (most)", f"{loads[len(loads) // 2]:.1f} ({loads[-1]:.1f})"),
    )


def _before_the_last_vitals(record: SoakRecord) -> Look:
    """What it tells as sent, the last vitals can tell as read."""
    until_ns = record.vitals[-1].at_ns - _UNDER_WAY_NS
    known = [look for look in record.looks if look.at_ns <= until_ns]
    return known[-1] if known else record.looks[0]
