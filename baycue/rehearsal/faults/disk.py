"""A small disk of its own, in memory, that can be filled; where one may be had."""

import os
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ROOMY_MB = 4000


def may_mount() -> bool:
    """Whether this user may mount one."""
    return hasattr(os, "geteuid") and os.geteuid() == 0 and Path("/proc/mounts").exists()


@contextmanager
def small_disk(folder: Path) -> Iterator[None]:
    """A tmpfs on a folder, with room at first."""
    folder.mkdir()
    _run("mount", "-t", "tmpfs", "-o", f"size={ROOMY_MB}M", "baycue", str(folder))
    try:
        yield
    finally:
        _run("umount", "-l", str(folder))


def leave_mb(folder: Path, free_mb: int) -> None:
    """Have just so much left on it."""
    stats = os.statvfs(folder)
    used = (stats.f_blocks - stats.f_bfree) * stats.f_frsize
    _run("mount", "-o", f"remount,size={used + (free_mb << 20)}", str(folder))


def limit_file_size(pid: int, most_bytes: int | None) -> None:
    """No file of the process's may grow beyond so much; None: as it was."""
    _run("prlimit", "--pid", str(pid), f"--fsize={most_bytes or 'unlimited'}:unlimited")


def _run(*command: str) -> None:
    subprocess.run(command, check=True, capture_output=True, timeout=30)
