"""A process that feeds one target and tells of every input before and after, on its output.

    python -m tests.fuzz.worker TARGET SEED FIRST END FOLDER

It may be killed at any moment; what it had begun is the last line that it wrote.
"""

import json
import os
import resource
import sys
import traceback
import warnings
from pathlib import Path

from tests.fuzz.arena import Arena
from tests.fuzz.target import Target
from tests.fuzz.targets import target_named

MEMORY_BYTES = 1 << 30
"""What an input may take beyond what the process has when it begins."""


def run(target: Target, seed: int, numbers: range, folder: Path) -> None:
    """Feed the inputs of these numbers."""
    arena = Arena(folder)
    warnings.simplefilter("error")
    target.input(seed, 0)  # what is made once is made now, and not on an input's time
    _limit_memory()
    for number in numbers:
        data, work = target.input(seed, number), arena.clear()
        _say("begun", number)
        _say(*_fed(target, data, work, arena), number)
    _say("done", numbers.stop)


def _fed(target: Target, data: bytes, work: Path, arena: Arena) -> tuple[str, ...]:
    try:
        answer = "taken" if target.takes(data, work) else "refused"
    except BaseException:
        return "failed", traceback.format_exc()
    touched = arena.touched()
    return ("failed", f"wrote outside: {touched}") if touched else (answer,)


def _limit_memory() -> None:
    pages = int(Path("/proc/self/statm").read_text().split()[0])
    limit = pages * os.sysconf("SC_PAGE_SIZE") + MEMORY_BYTES
    resource.setrlimit(resource.RLIMIT_AS, (limit, limit))


def _say(*words: str | int) -> None:
    os.write(3, (json.dumps(words) + "\n").encode())


if __name__ == "__main__":
    name, seed, first, end, where = sys.argv[1:]
    run(target_named(name), int(seed), range(int(first), int(end)), Path(where))
