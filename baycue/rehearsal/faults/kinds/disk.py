"""The disk that swings are kept on."""

import shutil
import sqlite3
import time
from contextlib import closing
from pathlib import Path

from baycue.rehearsal.faults.bay import LIMIT_S, Bay, BaySettings
from baycue.rehearsal.faults.disk import ROOMY_MB, leave_mb, limit_file_size
from baycue.rehearsal.faults.fault import Deed, Fault

_SMALL = BaySettings(small_disk=True)
_LOCKED_S = 14


def _leave(free_mb: int) -> Deed:
    return lambda bay: leave_mb(bay.folder / "disk", free_mb)


def _limit_files(bay: Bay) -> None:
    limit_file_size(bay.live.pid, 1 << 20)


def _limit_no_more(bay: Bay) -> None:
    limit_file_size(bay.live.pid, None)


def _forbid(bay: Bay) -> None:
    for folder in _folders(bay):
        folder.chmod(0o555)


def _allow(bay: Bay) -> None:
    for folder in _folders(bay):
        folder.chmod(0o755)


def _folders(bay: Bay) -> list[Path]:
    return [bay.place.folder, *(p for p in bay.place.folder.rglob("*") if p.is_dir())]


def _remove(bay: Bay) -> None:
    bay.wait_for_session()
    shutil.rmtree(bay.place.folder)


def _damage_log(bay: Bay) -> None:
    bay.wait_for_log()
    with bay.place.log.open("r+b") as file:
        file.write(b"\0" * 4096)


def _hold_log(bay: Bay) -> None:
    bay.wait_for_log()
    bay.hold_log(_LOCKED_S)


def _log_lacks_nothing(bay: Bay) -> str:
    """Every swing told by now comes into the log while the session goes on."""
    told, until = {number for number, _ in bay.verdicts()}, time.monotonic() + LIMIT_S
    while lacking := sorted(told - _logged(bay)):
        if time.monotonic() > until:
            return f"not in the log: swings {lacking}"
        time.sleep(0.2)
    return ""


def _logged(bay: Bay) -> set[int]:
    with closing(sqlite3.connect(bay.place.log)) as log:
        return {row[0] for row in log.execute("SELECT number FROM swings")}


_NOT_KEPT = r"swing \d+ is not kept"

FAULTS = (
    Fault(
        "disk-low",
        "500 MB left on the disk",
        _leave(500),
        _leave(ROOMY_MB),
        "films are not kept",
        settings=_SMALL,
    ),
    Fault(
        "disk-full",
        "10 MB left on the disk",
        _leave(10),
        _leave(ROOMY_MB),
        _NOT_KEPT + ".*full",
        settings=_SMALL,
    ),
    Fault(
        "disk-refuses",
        "no file may grow beyond 1 MB, as with a quota",
        _limit_files,
        _limit_no_more,
        "too large|cannot be written|No space",
    ),
    Fault(
        "folder-read-only",
        "the folder and all in it may not be written to",
        _forbid,
        _allow,
        _NOT_KEPT,
    ),
    Fault(
        "folder-removed",
        "the folder that swings are kept in is deleted",
        _remove,
        told=r"kept in a new",
    ),
    Fault(
        "log-damaged",
        "the log's first page is overwritten",
        _damage_log,
        told="log.*(damaged|not a database)",
        kept_is_hurt=True,
    ),
    Fault(
        "log-locked",
        f"another program holds the log for {_LOCKED_S} s",
        _hold_log,
        told="another program holds it",
        after=_log_lacks_nothing,
    ),
)
