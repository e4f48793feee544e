"""What a process holds, from Linux's ``/proc``."""

import os
from dataclasses import dataclass
from pathlib import Path

_PROC = Path("/proc")


@dataclass(frozen=True, slots=True)
class ProcessLook:
    """Memory in MB (2^20 bytes), threads, open file handles, processor time used so far.

    ``resident_mb``: all pages in memory, those of libraries that others use too among them.
    ``own_mb``: those that belong to no file.
    """

    resident_mb: float
    own_mb: float
    threads: int
    handles: int
    cpu_s: float


def look_at(process: int, proc: Path = _PROC) -> ProcessLook | None:
    """None if the process is gone, or the system does not tell."""
    folder = proc / str(process)
    try:
        kb = _numbers((folder / "smaps_rollup").read_text())
        stat = (folder / "stat").read_text().rpartition(")")[2].split()
        handles = sum(1 for _ in (folder / "fd").iterdir())
    except OSError:
        return None
    ticks = int(stat[11]) + int(stat[12])
    cpu_s = ticks / os.sysconf("SC_CLK_TCK")
    return ProcessLook(kb["Rss"] / 1024, kb["Anonymous"] / 1024, int(stat[17]), handles, cpu_s)


def _numbers(text: str) -> dict[str, int]:
    """The ``Name:  123 kB`` lines."""
    words = [line.split() for line in text.splitlines()]
    return {w[0].rstrip(":"): int(w[1]) for w in words if len(w) == 3 and w[2] == "kB"}
