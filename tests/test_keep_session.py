"""Keeping swings while a session goes on: from the camera's shots to films, sidecars and rows."""

import os
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from baycue.capture.ring import Ring
from baycue.capture.shot import Shot
from baycue.keep import pages
from baycue.keep.film_check import check_film
from baycue.keep.filming import AFTER_FINISH_NS, BEFORE_TAKEAWAY_NS, span_of
from baycue.keep.keeper import ToldSwing
from baycue.keep.log import SwingLog
from baycue.keep.place import Place
from baycue.keep.record import PlanText, SwingRecord
from baycue.keep.reel import Reel
from baycue.keep.sidecar import read_sidecar
from baycue.keep.swing_keeper import KeepingMeans, SwingKeeper
from baycue.spine import ScoredSwing, UnscorableSwing
from baycue.swing.swing import Checkpoint, CheckpointName
from tests.jpeg_shots import ROOMY, jpeg_of
from tests.kept_swing import PLAN, numbered

FPS = 60
PLENTY = 50 << 30
NOBODY = 65534


def takeaway_ns(scored: ScoredSwing) -> int:
    found = scored.evidence.swing.at(CheckpointName.TAKEAWAY)
    assert found is not None
    return found.time_ns


def impact_ns(scored: ScoredSwing) -> int:
    found = scored.evidence.swing.at(CheckpointName.IMPACT)
    assert found is not None
    return found.time_ns


def told(number: int = 1, student: str = "Heron") -> ToldSwing:
    scored = numbered(number)
    plan = PlanText("heron_knee", PLAN.replace("Heron", student))
    impact = impact_ns(scored)
    return ToldSwing(student, plan, scored, impact, impact + 400_000_000)


def with_finish(scored: ScoredSwing, after_impact_s: float) -> ScoredSwing:
    at_ns = impact_ns(scored) + round(after_impact_s * 1e9)
    swing = scored.evidence.swing
    finish = Checkpoint(CheckpointName.FINISH, at_ns, 200_000_000)
    whole = replace(swing, checkpoints=(*swing.checkpoints, finish))
    return replace(scored, evidence=replace(scored.evidence, swing=whole))


def shots_between(since_ns: int, until_ns: int, first: int = 0) -> Iterator[Shot]:
    count = (until_ns - since_ns) * FPS // 1_000_000_000
    for k in range(count):
        yield Shot(first + k, since_ns + round(k * 1e9 / FPS), jpeg_of(k))


@dataclass
class Bay:
    """A camera's ring, what keeps from it, and where."""

    place: Place
    ring: Ring[Shot] = field(default_factory=lambda: Ring(ROOMY))
    means: KeepingMeans = field(default_factory=lambda: KeepingMeans(free_bytes=lambda _: PLENTY))

    @contextmanager
    def keeper(self) -> Iterator[SwingKeeper]:
        keeper = SwingKeeper(self.place, "a camera", Reel(self.ring, ROOMY), self.means)
        try:
            yield keeper
        finally:
            keeper.close()

    def film_all(self) -> None:
        scored = numbered(1)
        since = takeaway_ns(scored) - 2_000_000_000
        for shot in shots_between(since, impact_ns(scored) + 4_000_000_000):
            self.ring.put(shot)

    def sidecars(self) -> list[Path]:
        return sorted(self.place.students.rglob("swing_*.json.gz"))

    def records(self) -> list[SwingRecord]:
        return [read_sidecar(path) for path in self.sidecars()]

    def rows(self) -> list[pages.SwingRow]:
        with SwingLog(self.place.log) as log:
            each = [pages.swings_of_session(log, s.id) for s in pages.sessions(log)]
        return [row for rows in each for row in rows]


@pytest.fixture
def bay(tmp_path: Path) -> Bay:
    return Bay(Place(tmp_path / "kept"))


def test_a_swing_is_filmed_from_before_takeaway_to_after_the_finish(bay: Bay) -> None:
    bay.film_all()
    swing = told()
    assert isinstance(swing.swing, ScoredSwing)
    with bay.keeper() as keeper:
        keeper.finished(with_finish(swing.swing, 0.9), ())
        keeper.known(swing)
    (record,) = bay.records()
    film = record.film
    assert film is not None
    frame_ns = 1_000_000_000 / FPS
    begins_ns = takeaway_ns(swing.swing) - BEFORE_TAKEAWAY_NS
    ends_ns = impact_ns(swing.swing) + 900_000_000 + AFTER_FINISH_NS
    assert 0 <= film.stamps_ns[0] - begins_ns <= frame_ns
    assert 0 <= ends_ns - film.stamps_ns[-1] <= frame_ns
    assert len(film.stamps_ns) == pytest.approx((ends_ns - begins_ns) / frame_ns, abs=1)
    check_film(bay.sidecars()[0].with_name(film.file), film, every_byte=True)


def test_all_that_was_found_is_kept_beside_it(bay: Bay) -> None:
    bay.film_all()
    swing = told()
    assert isinstance(swing.swing, ScoredSwing)
    poses = swing.swing.evidence.poses[-3:]
    with bay.keeper() as keeper:
        keeper.finished(with_finish(swing.swing, 0.9), poses)
        keeper.known(swing)
    (record,) = bay.records()
    assert record.scored is not None
    assert record.scored.verdict == swing.swing.verdict
    assert record.plan == swing.plan
    assert [c.name for c in record.later.checkpoints] == [CheckpointName.FINISH]
    assert len(record.later.poses) == 3
    assert record.software_ms == 400.0
    (row,) = bay.rows()
    assert (row.number, row.student, row.plan) == (1, "Heron", "heron_knee")
    assert row.film is not None
    assert bay.place.inside(row.film).exists()
    assert bay.place.inside(row.sidecar) == bay.sidecars()[0]
    names = {path.name for path in bay.sidecars()[0].parent.iterdir()}
    assert names == {"session.json", "swing_001.json.gz", "swing_001.mov"}


def test_a_finish_never_told_ends_the_film_three_seconds_after_impact(bay: Bay) -> None:
    bay.film_all()
    with bay.keeper() as keeper:
        keeper.known(told())
    (record,) = bay.records()
    assert record.film is not None
    assert record.film.stamps_ns[-1] <= impact_ns(numbered(1)) + 3_000_000_000


def test_a_swing_that_could_not_be_judged_is_kept_too(bay: Bay) -> None:
    bay.film_all()
    refused = replace(told(), swing=UnscorableSwing(1, "the feet are cut off"))
    with bay.keeper() as keeper:
        keeper.known(refused)
    (record,) = bay.records()
    assert (record.scored, record.unscorable) == (None, "the feet are cut off")
    assert record.film is not None
    assert [(row.outcome, row.reason) for row in bay.rows()] == [(None, "the feet are cut off")]


def test_plain_pictures_are_filmed_as_well(bay: Bay) -> None:
    scored = numbered(1)
    since = takeaway_ns(scored) - 1_000_000_000
    for shot in shots_between(since, impact_ns(scored) + 1_000_000_000):
        bay.ring.put(Shot(shot.index, shot.stamp_ns, shot.developed().picture_bgr))
    with bay.keeper() as keeper:
        keeper.known(told())
    (record,) = bay.records()
    assert record.film is not None
    assert len(record.film.stamps_ns) == len(bay.ring)


def test_without_a_camera_the_rest_is_kept(bay: Bay) -> None:
    with bay.keeper() as keeper:
        keeper.known(told())
    (record,) = bay.records()
    assert (record.film, record.no_film) == (
        None,
        "the camera gave no picture that could be kept",
    )


def test_two_students_in_one_session_have_a_folder_each(bay: Bay) -> None:
    with bay.keeper() as keeper:
        keeper.known(told(1, "Heron"))
        keeper.known(told(2, "Alder"))
        keeper.known(told(3, "Heron"))
    kept = [(record.student, record.number) for record in bay.records()]
    assert sorted(kept) == [("Alder", 2), ("Heron", 1), ("Heron", 3)]
    assert len({path.parent.parent for path in bay.sidecars()}) == 2
    with SwingLog(bay.place.log) as log:
        assert [s.ended_how for s in pages.sessions(log)] == ["closed", "closed"]


def test_two_sessions_at_once_share_the_log_and_no_folder(bay: Bay) -> None:
    other = Bay(bay.place)
    with bay.keeper() as one, other.keeper() as two:
        for number in (1, 2, 3):
            one.known(told(number))
            two.known(told(number))
    assert len(bay.rows()) == 6
    assert len({path.parent for path in bay.sidecars()}) == 2


def test_a_clock_that_is_set_back_loses_and_mixes_nothing(bay: Bay) -> None:
    noon = datetime(2026, 11, 26, 12, 0, tzinfo=UTC)
    times = iter(noon - timedelta(minutes=17 * k) for k in range(99))
    bay.means = KeepingMeans(lambda: next(times), lambda _: PLENTY)
    for _ in range(2):
        with bay.keeper() as keeper:
            keeper.known(told(1))
            keeper.known(told(2))
    assert len(bay.sidecars()) == 4
    with SwingLog(bay.place.log) as log:
        heron = pages.student_id(log, "Heron")
        assert heron is not None
        newest = pages.newest_swings(log, heron)
    assert [row.number for row in newest] == [2, 1, 2, 1], "the last kept first"
    assert newest[0].at_utc < newest[-1].at_utc, "though the clock says otherwise"


def test_the_same_minute_twice_makes_two_sessions(bay: Bay) -> None:
    noon = datetime(2026, 11, 26, 12, 0, tzinfo=UTC)
    bay.means = KeepingMeans(lambda: noon, lambda _: PLENTY)
    for _ in range(3):
        with bay.keeper() as keeper:
            keeper.known(told())
    folders = sorted(path.parent.name for path in bay.sidecars())
    assert [name[15:] for name in folders] == ["", "_2", "_3"]


def test_little_room_costs_films_and_is_told_once(bay: Bay) -> None:
    bay.film_all()
    bay.means = KeepingMeans(free_bytes=lambda _: 900 << 20)
    with bay.keeper() as keeper:
        keeper.known(told(1))
        keeper.known(told(2))
    assert keeper.news() == ("the disk has only 0.9 GB left: films are not kept",)
    assert keeper.trouble.startswith("the disk has only 0.9 GB left")
    assert [record.film for record in bay.records()] == [None, None]
    assert len(bay.rows()) == 2


def test_room_that_comes_back_ends_the_trouble(bay: Bay) -> None:
    free = iter([900 << 20, PLENTY])
    bay.means = KeepingMeans(free_bytes=lambda _: next(free))
    bay.film_all()
    with bay.keeper() as keeper:
        keeper.known(told(1))
        keeper.known(told(2))
    assert keeper.trouble == ""
    assert [record.film is not None for record in bay.records()] == [False, True]


def test_a_full_disk_keeps_nothing_and_the_session_goes_on(bay: Bay) -> None:
    bay.means = KeepingMeans(free_bytes=lambda _: 1 << 20)
    with bay.keeper() as keeper:
        keeper.known(told())
    assert keeper.trouble == "swing 1 is not kept: the disk is full (1 MB left): nothing is kept"
    assert bay.sidecars() == []


def test_a_damaged_log_costs_no_swing(bay: Bay) -> None:
    bay.place.folder.mkdir()
    bay.place.log.write_bytes(b"no database" * 500)
    with bay.keeper() as keeper:
        keeper.known(told())
    assert "the log is damaged" in keeper.trouble
    assert len(bay.records()) == 1
    assert (bay.sidecars()[0].parent / "in_use").exists(), "the next start looks after it"


def test_a_log_that_another_program_holds_is_waited_for(bay: Bay) -> None:
    bay.film_all()
    bay.place.folder.mkdir()
    SwingLog(bay.place.log, create=True).close()
    holder = sqlite3.connect(bay.place.log, check_same_thread=False, isolation_level=None)
    holder.execute("BEGIN IMMEDIATE")
    release = threading.Timer(0.2, holder.execute, ("ROLLBACK",))
    release.start()
    with bay.keeper() as keeper:
        keeper.known(told())
    release.join()
    holder.close()
    assert keeper.trouble == ""
    assert len(bay.rows()) == 1


@pytest.mark.skipif(os.name != "posix", reason="permissions are POSIX's")
def test_a_folder_that_may_not_be_written_is_told_of(bay: Bay) -> None:
    bay.place.folder.mkdir(mode=0o500)
    with as_nobody(bay.place.folder), bay.keeper() as keeper:
        keeper.known(told())
    assert "nothing can be kept there" in keeper.trouble
    assert list(bay.place.folder.iterdir()) == []


@contextmanager
def as_nobody(folder: Path) -> Iterator[None]:
    """As an ordinary user, who owns the folder; root may write anywhere.

    All threads of the process are that user's meanwhile.
    """
    if os.geteuid() != 0:
        yield
        return
    shut = {p: p.stat().st_mode for p in folder.parents if p.stat().st_mode & 0o011 != 0o011}
    for path, mode in shut.items():
        path.chmod(mode | 0o011)  # the group stays root's
    os.chown(folder, NOBODY, NOBODY)
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)
        for path, mode in shut.items():
            path.chmod(mode)


def test_a_file_where_the_folder_should_be_is_told_of(bay: Bay) -> None:
    bay.place.folder.write_text("a file")
    with bay.keeper() as keeper:
        keeper.known(told())
    assert keeper.trouble.startswith("swing 1 is not kept: ")


def test_a_fault_of_ours_ends_nothing(bay: Bay) -> None:
    def fail(_: Path) -> int:
        raise ZeroDivisionError("ours")

    bay.means = KeepingMeans(free_bytes=fail)
    with bay.keeper() as keeper:
        keeper.known(told())
    assert "a fault of this program: ZeroDivisionError: ours" in keeper.trouble


def test_span_without_a_verdict() -> None:
    span = span_of(None, 10_000_000_000)
    assert (span.since_ns, span.until_ns) == (5_500_000_000, 13_000_000_000)
