"""A kept swing's film, wherever it is now: it may be made small while somebody looks for it."""

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from baycue.errors import BaycueError
from baycue.keep.record import SwingRecord
from baycue.keep.sidecar import read_sidecar

Seen = TypeVar("Seen")

See = Callable[[SwingRecord, Path], Seen]
"""What is made of a record and its film; of one without a film, the sidecar's path stands there."""


def see_kept(sidecar: Path, see: See[Seen]) -> Seen:
    """What ``see`` makes of a kept swing.

    Where it fails, and the sidecar names another film by then, it is asked once more: the small
    film has its name before the sidecar tells of it, and the old one goes afterwards.  Raises what
    ``see`` raises, and KeptError for a sidecar that cannot be read.
    """
    record = read_sidecar(sidecar)
    try:
        return see(record, _film_of(record, sidecar))
    except BaycueError:
        again = read_sidecar(sidecar)
        if again.film == record.film:
            raise
        return see(again, _film_of(again, sidecar))


def _film_of(record: SwingRecord, sidecar: Path) -> Path:
    return sidecar.with_name(record.film.file) if record.film else sidecar
