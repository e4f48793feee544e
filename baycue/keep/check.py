"""Is all that was kept still there and whole?  And making the log anew from the sidecars."""

from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path

from baycue.counted import counted
from baycue.errors import KeptError, OutputError
from baycue.keep.compact import left_over
from baycue.keep.film_check import check_film
from baycue.keep.folders import IN_USE, SESSION_FILE, read_facts
from baycue.keep.kept_film import see_kept
from baycue.keep.log import SwingLog
from baycue.keep.place import FIRST_SUFFIX, PARTIAL, SIDECAR_SUFFIX, SMALL_FILM_SUFFIX, Place
from baycue.keep.record import Film, SwingRecord
from baycue.keep.recover import Recovered, enter, is_going_on, recover, sidecars

_HALF_SMALL = (
    "left over from making a film small; `baycue log compact` clears it away, and the film is whole"
)

OnSwing = Callable[[int], None]


@dataclass(slots=True)
class Checked:
    """What was looked at, and what is wrong, a line each; ``done``: what was mended."""

    sidecars: int = 0
    films: int = 0
    wrong: list[str] = field(default_factory=list)
    done: list[str] = field(default_factory=list)


def check(place: Place, every_byte: bool = False, on_swing: OnSwing | None = None) -> Checked:
    """Look at everything and change nothing.  ``every_byte``: read films from end to end."""
    found = Checked()
    known = _known_to_the_log(place, found)
    for folder in session_folders(place):
        for path in sidecars(folder):
            found.sidecars += 1
            if on_swing:
                on_swing(found.sidecars)
            name = path.relative_to(place.folder).as_posix()
            if known is not None and name not in known:
                found.wrong.append(f"{path}: is not in the log")
            let_go = known is not None and not known.pop(name, True)
            _check_swing(path, every_byte, let_go, found)
        found.wrong += _unfinished(folder)
    found.wrong += [f"{place.folder / name}: the sidecar is gone" for name in sorted(known or ())]
    return found


def repair(place: Place) -> Checked:
    """Recover what killed sessions left, set a damaged log aside, and put into it what it lacks."""
    found = Checked()
    if place.log.exists() and (fault := log_fault(place)):
        aside = _set_aside(place.log)
        found.done.append(f"{fault}. It was set aside as {aside.name}")
    recovered = recover(place)
    found.done += recovered.lines
    added = _enter_all(place, found)
    if added:
        found.done.append(f"{counted(added, 'swing')} put into the log from their sidecars")
    return found


def log_fault(place: Place) -> str:
    """What is wrong with the log's file; empty if nothing is."""
    try:
        with SwingLog(place.log) as log:
            said = [str(row[0]) for row in log.rows("PRAGMA integrity_check(3)")]
            strays = log.rows("PRAGMA foreign_key_check")
    except KeptError as error:
        return str(error)
    if said != ["ok"]:
        return f"{place.log}: the log is damaged ({'; '.join(said)})"
    return f"{place.log}: {len(strays)} rows belong to nothing" if strays else ""


def session_folders(place: Place) -> Iterator[Path]:
    """Every session's folder, student by student."""
    for facts in sorted(place.students.glob(f"*/*/{SESSION_FILE}")):
        yield facts.parent


def _known_to_the_log(place: Place, found: Checked) -> dict[str, bool] | None:
    """The sidecars that the log has, and whether it has a film; None if it cannot be read."""
    fault = log_fault(place)
    if fault:
        found.wrong.append(fault)
        return None
    with SwingLog(place.log) as log:
        rows = log.each("SELECT sidecar, film FROM swings")
        return {row["sidecar"]: row["film"] is not None for row in rows}


def _check_swing(path: Path, every_byte: bool, let_go: bool, found: Checked) -> None:
    """``let_go``: its film was deleted on purpose."""
    filmed: list[Film] = []

    def look(record: SwingRecord, film: Path) -> None:
        filmed[:] = [] if record.film is None or let_go else [record.film]
        for each in filmed:
            check_film(film, each, every_byte)

    try:
        see_kept(path, look)
        found.wrong += [line for film in filmed for line in _half_small(path, film)]
    except KeptError as error:
        found.wrong.append(str(error))
    found.films += len(filmed)


def _half_small(sidecar: Path, film: Film) -> list[str]:
    """What a kill left; not what a session that goes on is just about."""
    if is_going_on(sidecar.with_name(IN_USE)):
        return []
    stem = sidecar.name.removesuffix(SIDECAR_SUFFIX)
    return [f"{path}: {_HALF_SMALL}" for path in left_over(sidecar.parent, film, stem)]


def _unfinished(folder: Path) -> list[str]:
    """What a session that is over has left behind."""
    marker = folder / IN_USE
    if marker.exists() and is_going_on(marker):
        return []
    left = [marker] if marker.exists() else []
    left += sorted(p for end in (PARTIAL, FIRST_SUFFIX) for p in folder.glob(f"*{end}"))
    left = [path for path in left if not path.name.endswith(SMALL_FILM_SUFFIX + PARTIAL)]
    return [f"{path}: left over from a session that was cut off" for path in left]


def _set_aside(log: Path) -> Path:
    """Give a damaged log another name; it is never deleted."""
    aside = next(
        path
        for number in count(1)
        if not (path := log.with_name(f"{log.stem}.damaged-{number}{log.suffix}")).exists()
    )
    for end in ("", "-wal", "-shm"):
        with suppress(FileNotFoundError):
            log.with_name(log.name + end).rename(aside.with_name(aside.name + end))
    return aside


def _enter_all(place: Place, found: Checked) -> int:
    told, added = Recovered([]), 0
    with SwingLog(place.log, create=True) as log:
        for folder in session_folders(place):
            if is_going_on(folder / IN_USE):
                continue
            try:
                facts = read_facts(folder, place)
                added += enter(log, facts, folder, told, interrupted=False)
            except OutputError as error:
                told.lines.append(str(error))
    found.wrong += told.lines
    return added
