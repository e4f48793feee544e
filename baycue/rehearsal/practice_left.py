"""What a practice has left behind: is every swing kept, every film playable, every view there?"""

from collections.abc import Iterator, Sequence
from pathlib import Path

import av

from baycue.errors import BaycueError
from baycue.keep.check import check, session_folders
from baycue.keep.kept_film import see_kept
from baycue.keep.place import PARTIAL, Place
from baycue.keep.record import SwingRecord
from baycue.keep.recover import sidecars
from baycue.keep.small_film import SMALL_CODEC, picture_times


def left_wrong(
    place: Place, exported: Path, verdicts: Sequence[tuple[int, str]], written: Sequence[str]
) -> list[str]:
    """What is wrong, a line each.

    ``verdicts``: number and outcome of each swing as told.  ``written``: what was told of views.
    """
    found = check(place, every_byte=True)
    return [
        *found.wrong,
        *_wrong_swings(place, dict(verdicts)),
        *(f"{path}: is not whole" for path in sorted(place.students.rglob(f"*{PARTIAL}"))),
        *_wrong_views(exported, written),
    ]


def _wrong_swings(place: Place, verdicts: dict[int, str]) -> Iterator[str]:
    kept: dict[int, str] = {}
    for folder in session_folders(place):
        for path in sidecars(folder):
            try:
                number, outcome = see_kept(path, _looked_at)
                kept[number] = outcome
            except BaycueError as error:
                yield str(error)
    for number, outcome in sorted(verdicts.items()):
        if kept.get(number, "").upper() != outcome:
            yield f"swing {number}: told {outcome}, kept {kept.get(number, 'nothing')}"


def _looked_at(record: SwingRecord, film: Path) -> tuple[int, str]:
    """Number and outcome; BaycueError unless its film is small and plays to its end."""
    if record.film is None or record.film.codec != SMALL_CODEC:
        raise BaycueError(f"{film}: was not made small")
    if len(picture_times(film)) != len(record.film.stamps_ns):
        raise BaycueError(f"{film}: does not show all its pictures")
    return record.number, record.scored.verdict.outcome.value if record.scored else "not judged"


def _wrong_views(exported: Path, written: Sequence[str]) -> Iterator[str]:
    told = {Path(line.removeprefix("written to ")) for line in written}
    there = set(exported.iterdir()) if exported.exists() else set()
    yield from (f"{path}: is there, and was not told of" for path in sorted(there - told))
    for path in sorted(told):
        if not _pictures(path):
            yield f"{path}: was told of and does not play"


def _pictures(path: Path) -> int:
    """How many pictures it shows; none if it cannot be read."""
    try:
        with av.open(str(path)) as container:
            return sum(1 for _ in container.decode(video=0))
    except (av.FFmpegError, OSError, IndexError):
        return 0
