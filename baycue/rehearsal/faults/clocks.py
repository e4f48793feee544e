"""`baycue live` with clocks that go as wrong as a file says: ``clocks FILE live ARGUMENTS``.

The file is JSON: ``stamps_s`` is added to the camera's stamps, which are rounded down to
``grain_s``; ``wall_s`` is added to the time of day.  No file: all is right.
"""

import json
import sys
import time
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from rich.console import Console

from baycue.commands.keeping import KeepRequest
from baycue.commands.live import LiveRequest, run_live
from baycue.keep.kept_session import utc_now
from baycue.live.clocks import Clocks


@dataclass(frozen=True, slots=True)
class WrongClocks:
    """Clocks by a file that may change at any time."""

    file: Path

    def stamp_ns(self) -> int:
        """For the camera's stamps."""
        grain_ns = max(round(self._wrong("grain_s") * 1e9), 1)
        return (time.monotonic_ns() + round(self._wrong("stamps_s") * 1e9)) // grain_ns * grain_ns

    def now(self) -> datetime:
        """The time of day."""
        return utc_now() + timedelta(seconds=self._wrong("wall_s"))

    def _wrong(self, what: str) -> float:
        try:
            return float(json.loads(self.file.read_text()).get(what, 0))
        except (OSError, ValueError):
            return 0.0


def main() -> None:
    """The arguments are those that a bay without screen and sound gives."""
    wrong = WrongClocks(Path(sys.argv[1]))
    words = sys.argv[3:]
    value = {name: words[words.index(name) + 1] for name in ("--source", "--plan", "--keep")}
    request = LiveRequest(
        value["--source"],
        (Path(value["--plan"]),),
        window=False,
        sound=False,
        skip_set_up=True,
        keep=KeepRequest(Path(value["--keep"])),
        clocks=Clocks(wrong.stamp_ns, wrong.now),
    )
    run_live(request, Console())
