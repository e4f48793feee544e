"""Sidecars: a swing's record with damaged bytes, or whole and full of what cannot be."""

import gzip
import json
from functools import cache
from pathlib import Path
from random import Random

from baycue.keep.check import check, repair
from baycue.keep.folders import SessionFolder
from baycue.keep.kept_session import utc_now
from baycue.keep.log import SwingLog
from baycue.keep.pages import newest_swings
from baycue.keep.place import Place
from baycue.keep.record import SwingRecord
from baycue.keep.rescore import rescored
from baycue.keep.retention import delete_films, films
from baycue.keep.sidecar import packed, read_sidecar
from baycue.plan.load import parse_plan
from tests.fuzz.damage import damaged
from tests.fuzz.target import Target, each
from tests.fuzz.trees import as_text, changed
from tests.kept_swing import PLAN, swing_record, with_film


def draw(random: Random) -> bytes:
    """Two in three unpack to JSON; the rest has damaged bytes."""
    kind = random.random()
    if kind < 0.65:
        document = changed(json.loads(seed_text()), random)
        return gzip.compress(as_text(document, random), compresslevel=1, mtime=0)
    if kind < 0.85:
        return gzip.compress(damaged(seed_text(), random), compresslevel=1, mtime=0)
    return damaged(seed(), random)


def feed(data: bytes, folder: Path) -> None:
    """Read it; if it is taken, do with it all that is ever done with a swing."""
    place = Place(folder / "kept")
    place.folder.mkdir()
    path = place.student("Heron") / "2026-11-26_1430" / "swing_001.json.gz"
    path.parent.mkdir(parents=True)
    path.write_bytes(data)
    record = read_sidecar(path)
    packed(record)
    path.unlink()
    each(lambda: rescored(record, parse_plan(PLAN, "plan.yaml")))
    use(place, data, record)


def use(place: Place, data: bytes, record: SwingRecord) -> None:
    """Put it into a session's folder and the log, look at it there, and let its film go."""
    session = SessionFolder(place, "Heron", "a camera", utc_now())
    (session.path / "swing_001.json.gz").write_bytes(data)
    (session.path / "swing_001.mov").write_bytes(b"a film")
    session.close()
    repair(place)
    check(place, every_byte=True)
    with SwingLog(place.log) as log:
        newest_swings(log, 1)
        each(lambda: delete_films(log, place, films(log)))
    left = sorted(p.name for p in session.path.iterdir())
    assert "swing_001.json.gz" in left, "a sidecar was deleted as if it were a film"


@cache
def seed() -> bytes:
    """A judged swing with a film."""
    return packed(with_film(swing_record()))


@cache
def seed_text() -> bytes:
    """What it unpacks to."""
    return gzip.decompress(seed())


TARGET = Target("sidecar", 0.10, draw, feed)
