"""What a process is called where the system lists processes."""

from contextlib import suppress
from pathlib import Path


def call_this_process(name: str) -> None:
    """On Linux, at most 15 characters; elsewhere nothing."""
    with suppress(OSError):
        Path("/proc/self/comm").write_text(name)
