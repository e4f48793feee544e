"""After a session that was killed: what it had kept is made whole, and it is marked."""

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field, replace
from pathlib import Path

from baycue.counted import counted
from baycue.errors import KeptError, OutputError
from baycue.keep.entries import add_session, add_swing, end_session
from baycue.keep.file_lock import lock
from baycue.keep.film import film_of
from baycue.keep.film_check import cut_half_written, readable_stamps_ns
from baycue.keep.folders import IN_USE, SessionFacts, read_facts
from baycue.keep.log import SwingLog
from baycue.keep.notes import add_note, note_files, read_note
from baycue.keep.place import FILM_SUFFIX, FIRST_SUFFIX, PARTIAL, SIDECAR_SUFFIX, Place, swing_stem
from baycue.keep.record import Film, SwingRecord
from baycue.keep.sidecar import packed, read_sidecar
from baycue.keep.whole import name_whole, write_whole

CUT_OFF = "the session was cut off before the film was whole"


@dataclass(slots=True)
class Recovered:
    """What was done: ``lines`` tell it, one line a session and one for each file in trouble.

    ``folders``: the sessions that were interrupted.
    """

    lines: list[str]
    swings: int = 0
    folders: list[tuple[SessionFacts, Path]] = field(default_factory=list)


def recover(place: Place) -> Recovered:
    """Look after every session that nobody holds any more; those that go on are left alone."""
    done = Recovered([])
    for marker in sorted(place.students.glob(f"*/*/{IN_USE}")):
        try:
            _recover_unless_held(place, marker, done)
        except (OutputError, OSError) as error:
            done.lines.append(str(error))
    return done


def is_going_on(marker: Path) -> bool:
    """Whether a living process holds the session with this marker."""
    with suppress(FileNotFoundError), marker.open("r+b") as file:
        return not lock(file)
    return False


def _recover_unless_held(place: Place, marker: Path, done: Recovered) -> None:
    folder = marker.parent
    with marker.open("r+b") as file:
        if not lock(file):
            return
        facts = read_facts(folder, place)
        recovered = sum(_recover_swing(first, done) for first in _firsts(folder))
        with SwingLog(place.log, create=True) as log:
            enter(log, facts, folder, done, interrupted=True)
    with suppress(OSError):
        marker.unlink()
    done.swings += recovered
    done.folders.append((facts, folder))
    swings = counted(
        recovered, "swing that was not whole yet was", "swings that were not whole yet were"
    )
    done.lines.append(f"{folder}: the session was interrupted; {swings} recovered")


def enter(
    log: SwingLog, facts: SessionFacts, folder: Path, done: Recovered, interrupted: bool
) -> int:
    """Put a session and its sidecars into the log, as far as they are not there; how many."""
    add_session(log, facts)
    added, ended_utc = 0, facts.started_utc
    for path in sidecars(folder):
        try:
            record = _as_it_is(path)
        except KeptError as error:
            done.lines.append(str(error))
            continue
        added += add_swing(log, facts, record)
        ended_utc = record.at_utc
    _enter_notes(log, facts, folder, done)
    end_session(log, facts, ended_utc, interrupted)
    return added


def _as_it_is(sidecar: Path) -> SwingRecord:
    """The record, without a film that somebody let go, by the rule or by hand."""
    for _ in range(2):  # the film may just have been made small
        record = read_sidecar(sidecar)
        if record.film is None or sidecar.with_name(record.film.file).exists():
            return record
    return replace(record, film=None)


def _enter_notes(log: SwingLog, facts: SessionFacts, folder: Path, done: Recovered) -> None:
    for path in note_files(folder):
        try:
            add_note(log, facts.folder, f"{facts.folder}/{path.name}", read_note(path))
        except KeptError as error:
            done.lines.append(str(error))


def sidecars(folder: Path) -> Iterator[Path]:
    """A session's whole sidecars in order."""
    for path in sorted(folder.glob(f"swing_*{SIDECAR_SUFFIX}")):
        if not path.name.endswith(FIRST_SUFFIX):
            yield path


def _firsts(folder: Path) -> list[Path]:
    return sorted(folder.glob(f"swing_*{FIRST_SUFFIX}"))


def _recover_swing(first: Path, done: Recovered) -> bool:
    """Make a sidecar of what was known at the verdict, unless there is one."""
    stem = first.name.removesuffix(FIRST_SUFFIX)
    whole = first.with_name(stem + SIDECAR_SUFFIX)
    if not whole.exists():
        whole.with_name(whole.name + PARTIAL).unlink(missing_ok=True)
        try:
            record = read_sidecar(first)
        except KeptError as error:
            done.lines.append(str(error))
            return False
        write_whole(whole, packed(_with_film(record, first.parent)))
        first.unlink()
        return True
    first.unlink()
    return False


def _with_film(record: SwingRecord, folder: Path) -> SwingRecord:
    """The record with as much of its film as was written."""
    film = _recovered_film(folder / (swing_stem(record.number) + FILM_SUFFIX), record.film)
    return replace(record, film=film, no_film="" if film else record.no_film or CUT_OFF)


def _recovered_film(path: Path, promised: Film | None) -> Film | None:
    """The film, whole or as far as it came; None if not one picture did."""
    partial = path.with_name(path.name + PARTIAL)
    if promised is None:
        return None
    if not path.exists() and partial.exists():
        cut_half_written(partial)
        if readable_stamps_ns(partial)[1]:
            name_whole(partial, path)
        else:
            partial.unlink()  # begun, and not one picture in it
    if not path.exists():
        return None
    partial.unlink(missing_ok=True)
    size, stamps_ns = readable_stamps_ns(path)
    return film_of(path, size, [promised.stamps_ns[0] + stamp_ns for stamp_ns in stamps_ns])
