"""A soak's tables."""

import numpy as np
from rich.table import Table

from baycue.rehearsal.soak_counts import counts
from baycue.rehearsal.soak_missed import MissedSwing, missed
from baycue.rehearsal.soak_record import SoakRecord
from baycue.rehearsal.soak_series import Series, series, warm_up_s

_ENDS = 10
"""Beginning and end are told as the median of a tenth of the values."""


def soak_tables(record: SoakRecord) -> tuple[Table, ...]:
    """Counts; swings that were missed, if any; slopes with verdicts."""
    counted = Table("what", "counted")
    for name, value in counts(record):
        counted.add_row(name, value)
    from_s = warm_up_s(record.lasted_s)
    sloped = Table(
        *("what", "at first", "at last", "most", "an hour (95 %)", "no matter", "verdict"),
        title=f"after {from_s / 60:.1f} minutes to settle",
    )
    for each in series(record):
        sloped.add_row(*_row(each.since(from_s)))
    found = missed(record)
    return (counted, _missed_table(found), sloped) if found else (counted, sloped)


def _missed_table(found: tuple[MissedSwing, ...]) -> Table:
    """By minutes and seconds from the start."""
    table = Table(
        *("swing", "shown between", "poses a second then", "load"),
        title="shown and not answered, nor told of",
    )
    for each in found:
        rate = "" if each.poses_per_s is None else f"{each.poses_per_s:.1f}"
        span = f"{_clock(each.from_s)} and {_clock(each.to_s)}"
        table.add_row(str(each.number), span, rate, f"{each.load:.1f}")
    return table


def _clock(seconds: float) -> str:
    whole = round(seconds)
    return f"{whole // 60}:{whole % 60:02d}"


def _row(each: Series) -> tuple[str, ...]:
    name = f"{each.name}, {each.unit}" if each.unit else each.name
    if not each.values:
        return name, *[""] * 5, "not measured"
    share = max(len(each.values) // _ENDS, 1)
    first, last = np.median(each.values[:share]), np.median(each.values[-share:])
    ends = tuple(f"{v:.1f}" for v in (first, last, max(each.values)))
    found = each.slope
    hour = f"{found.per_h:+.1f} ({found.low:+.1f} to {found.high:+.1f})" if found else ""
    return name, *ends, hour, f"{each.negligible:g}", each.verdict
