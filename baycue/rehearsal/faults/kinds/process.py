"""The processes, and what the machine does to them."""

import os
import re
import signal
import sqlite3
import time
from contextlib import closing
from pathlib import Path

from baycue.keep.place import swing_stem
from baycue.keep.standing import STANDING_FILE
from baycue.rehearsal.faults.bay import Bay, BaySettings
from baycue.rehearsal.faults.fault import Fault
from baycue.rehearsal.faults.live_process import answered_in

_STOPPED_S, _WRITTEN_S = 5.0, 30.0


def _kill_scoring(bay: Bay) -> None:
    os.kill(scoring_pid(bay), signal.SIGKILL)


def scoring_pid(bay: Bay) -> int:
    """The process in which swings are scored."""
    for child in _children(bay.live.pid):
        if _name(child) == "baycue scoring":
            return child
    raise AssertionError("there is no scoring process")


def _children(pid: int) -> list[int]:
    tasks = Path(f"/proc/{pid}/task")
    lists = [(task / "children").read_text() for task in tasks.iterdir()]
    return [int(child) for each in lists for child in each.split()]


def _name(pid: int) -> str:
    return Path(f"/proc/{pid}/comm").read_text().strip()


def _stop(bay: Bay) -> None:
    os.kill(bay.live.pid, signal.SIGSTOP)
    time.sleep(_STOPPED_S)
    os.kill(bay.live.pid, signal.SIGCONT)


def until_kept(bay: Bay) -> None:
    """Wait for the last swing told to be on the disk, its film perhaps not yet."""
    stem = swing_stem(bay.verdicts()[-1][0])
    until = time.monotonic() + _WRITTEN_S
    while not list(bay.place.students.glob(f"*/*/{stem}.*json.gz")):
        assert time.monotonic() < until, f"{stem} was told and is not on the disk"
        time.sleep(0.01)
    while not list(bay.place.students.glob(f"*/*/{STANDING_FILE}")):
        assert time.monotonic() < until, "how the session stands is not on the disk"
        time.sleep(0.01)


def _kill_and_restart(bay: Bay) -> None:
    until_kept(bay)
    bay.live.kill()
    bay.start_live()


def one_session(bay: Bay) -> str:
    """One session in the log, its swings numbered on without a gap or a repetition."""
    numbers = answered_in(bay.lines)
    if numbers != list(range(1, len(numbers) + 1)):
        return f"swings were told with the numbers {numbers}"
    with closing(sqlite3.connect(bay.place.log)) as log:
        (sessions,) = log.execute("SELECT count(*) FROM sessions").fetchone()
    return "" if sessions == 1 else f"the log has {sessions} sessions"


def _practice_goes_on(bay: Bay) -> str:
    """The next go is the one after those that were done."""
    first = next((li for li in bay.live.lines if li.text.startswith("practice: ")), None)
    place = re.search(r"(\d+) of \d+", first.text) if first else None
    if place is None or int(place[1]) < 1:
        return f"the practice began anew: {first.text if first else 'nothing was said'}"
    return one_session(bay)


FAULTS = (
    Fault(
        "scoring-killed",
        "the scoring process is killed (kill -9)",
        _kill_scoring,
        told="the scoring process",
    ),
    Fault(
        "session-stopped",
        f"the session's process is stopped for {_STOPPED_S:.0f} s and goes on",
        _stop,
    ),
    Fault(
        "session-killed",
        "the session's process is killed (kill -9) and started again",
        _kill_and_restart,
        told="the session goes on where it was cut off",
        after=one_session,
    ),
    Fault(
        "session-killed-in-practice",
        "the same in the middle of a laid-out session",
        _kill_and_restart,
        told="the session goes on where it was cut off",
        settings=BaySettings(practice=True),
        after=_practice_goes_on,
    ),
)
