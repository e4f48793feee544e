"""A live session with its keeper: what was answered is what is kept."""

import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from baycue.capture.camera import LiveCamera
from baycue.capture.recording import RecordingSource
from baycue.capture.shot import Content, Shot
from baycue.capture.watchdog import Patience
from baycue.coach_report.figures import figures_of
from baycue.coach_report.from_log import practice_of
from baycue.coach_report.words import retention_words
from baycue.counted import counted
from baycue.keep import pages
from baycue.keep.check import check
from baycue.keep.compact import compact, large_films
from baycue.keep.film import packed_shot
from baycue.keep.film_check import check_film
from baycue.keep.log import SwingLog
from baycue.keep.place import Place
from baycue.keep.record import DrillPlace, PracticeGo, SwingRecord
from baycue.keep.reel import Reel
from baycue.keep.sidecar import read_sidecar
from baycue.keep.swing_keeper import KeepingMeans, SwingKeeper
from baycue.live.answers import Means
from baycue.live.feedback import FeedbackMode
from baycue.live.plans import TargetSet
from baycue.live.session import Session
from baycue.live.stage import is_judged
from baycue.live.view import Stage
from baycue.plan.watch import PlanWatch
from baycue.swing.swing import CheckpointName
from baycue.verdict.verdict import Outcome
from tests.played_session import PLAN, HeardSpeaker, Played, SeenScreen, SteppedCamera, known

PLENTY = 50 << 30


class PackedCamera(SteppedCamera):
    """A camera that sends JPEGs: they need no packing, for which a busy machine has no time."""

    def read(self) -> Content:
        return packed_shot(Shot(0, 0, super().read())).content


def play_and_keep(
    place: Place,
    means: KeepingMeans,
    plan: Path = PLAN,
    keeper: Callable[..., SwingKeeper] = SwingKeeper,
) -> Played:
    """Play the clip of two swings through the whole loop, step by step, and keep them."""
    speaker, screen, said = HeardSpeaker(), SeenScreen(), list[str]()
    stepped, opening = PackedCamera(known().frames), threading.Event()

    def open_stepped() -> SteppedCamera:
        opening.wait(30)
        return stepped

    camera = LiveCamera(open_stepped, Patience(frozen_ns=None), clock=stepped.now_ns)
    watch = PlanWatch(plan)
    session = Session(
        camera,
        known(),
        [TargetSet("the plan", watch.plan, watch)],
        Means(speaker, screen, said.append),
        FeedbackMode(),
        keeper=keeper(place, "a clip", Reel(camera.ring), means),
    )
    stepped.looked_at = lambda: session.analysis.poses
    opening.set()
    session.run()
    return Played(session.answers.told, speaker, screen, said, session.answers.newest)


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Place:
    return Place(tmp_path_factory.mktemp("kept"))


@pytest.fixture(scope="module")
def played(place: Place) -> Played:
    return play_and_keep(place, KeepingMeans(free_bytes=lambda _: PLENTY))


@pytest.fixture
def records(played: Played, place: Place) -> list[SwingRecord]:
    return [read_sidecar(p) for p in sorted(place.students.rglob("swing_*.json.gz"))]


def test_every_answer_is_kept_as_it_was_given(played: Played, records: list[SwingRecord]) -> None:
    assert [r.number for r in records] == [1, 2]
    for told, record in zip(played.told, records, strict=True):
        assert record.scored is not None
        assert record.scored.verdict == told.verdict
        assert record.plan.text == PLAN.read_text(encoding="utf-8")
        assert record.student == "Heron"


def test_the_film_shows_the_swing_at_full_rate(records: list[SwingRecord], place: Place) -> None:
    for record, path in zip(records, sorted(place.students.rglob("*.mov")), strict=True):
        assert record.film is not None
        check_film(path, record.film, every_byte=True)
        gaps_ns = np.diff(record.film.stamps_ns)
        assert set(gaps_ns) <= set(np.diff([f.stamp_ns for f in known().frames])), "one is missing"
        with RecordingSource(path) as source:
            assert source.frame_count == len(record.film.stamps_ns)
        impact = record.checkpoint(CheckpointName.IMPACT)
        assert impact is not None
        assert record.film.stamps_ns[0] < impact.time_ns < record.film.stamps_ns[-1]


def test_what_came_after_the_verdict_is_kept_too(records: list[SwingRecord]) -> None:
    for record in records:
        assert record.scored is not None
        assert record.checkpoint(CheckpointName.P8) is not None
        assert record.later.poses
        assert record.later.poses[0].stamp_ns > record.scored.decided_ns


def test_the_log_tells_of_it(played: Played, place: Place) -> None:
    with SwingLog(place.log) as log:
        (session,) = pages.sessions(log)
    assert (session.swings, session.passes, session.fails) == (2, 1, 1)
    assert (session.source, session.ended_how) == ("a clip", "closed")


class LetKeeper(SwingKeeper):
    """Notes when films may be made small."""

    def __init__(self, place: Place, source: str, reel: Reel, means: KeepingMeans) -> None:
        super().__init__(place, source, reel, means)
        self.lets: list[bool] = []

    def let(self, free: bool) -> None:
        self.lets.append(free)
        super().let(free)


def test_films_are_made_small_meanwhile_but_not_while_somebody_is_judged(tmp_path: Path) -> None:
    keepers = list[LetKeeper]()

    def keeper(*given: Any) -> LetKeeper:
        keepers.append(LetKeeper(*given))
        return keepers[0]

    place = Place(tmp_path)
    means = KeepingMeans(free_bytes=lambda _: PLENTY, makes_small=True)
    played = play_and_keep(place, means, keeper=keeper)
    assert [told.verdict is not None for told in played.told] == [True, True]
    assert {True, False} == set(keepers[0].lets)
    with SwingLog(place.log) as log:
        left = large_films(log)
    made = 2 - len(left)
    assert (f"{counted(made, 'film')} made small" in " ".join(keepers[0].summary())) == bool(made)
    assert compact(place, left).films == len(left)
    assert check(place, every_byte=True).wrong == []


@pytest.mark.parametrize("stage", Stage)
def test_who_is_judged(stage: Stage) -> None:
    assert is_judged(stage, scoring=True)
    assert is_judged(stage, scoring=False) == (stage in (Stage.ADDRESS, Stage.SWING))


def test_a_disk_that_is_low_is_on_screen_and_terminal_and_the_verdicts_go_on(
    tmp_path: Path,
) -> None:
    low = KeepingMeans(free_bytes=lambda _: 200 << 20)
    played = play_and_keep(Place(tmp_path), low)
    assert [told.verdict is not None for told in played.told] == [True, True]
    words = "the disk has only 0.2 GB left: films are not kept"
    assert words in played.said
    assert words in {view.notice for view in played.screen.views}
    assert len(list(tmp_path.rglob("swing_*.json.gz"))) == 2
    assert list(tmp_path.rglob("*.mov*")) == []


PROBED = """
practice:
  blocks:
    - {name: with answers, drills: [{drill: full swing, count: 1}]}
    - {name: what stays, drills: [{drill: full swing, count: 1}], feedback: silent}
"""


@pytest.fixture(scope="module")
def probed(tmp_path_factory: pytest.TempPathFactory) -> Place:
    """A session whose second block, of the second swing, is silent."""
    folder = tmp_path_factory.mktemp("probed")
    plan = folder / "probed.yaml"
    plan.write_text(PLAN.read_text(encoding="utf-8") + PROBED, encoding="utf-8")
    place = Place(folder / "kept")
    played = play_and_keep(place, KeepingMeans(free_bytes=lambda _: PLENTY), plan)
    assert [t.verdict.outcome for t in played.told if t.verdict] == [Outcome.FAIL, Outcome.PASS]
    assert played.speaker.played == [Outcome.FAIL]
    return place


def test_a_silent_block_is_marked_in_sidecars_and_log(probed: Place) -> None:
    told = PracticeGo(DrillPlace(0, 0), "with answers", "full swing", probe=False)
    probe = PracticeGo(DrillPlace(1, 0), "what stays", "full swing", probe=True)
    kept = [read_sidecar(p) for p in sorted(probed.students.rglob("swing_*.json.gz"))]
    assert [record.go for record in kept] == [told, probe]
    with SwingLog(probed.log) as log:
        assert [row.go for row in pages.swings_of_session(log, 1)] == [told, probe]


def test_the_coachs_report_tells_the_probe_from_the_practice(probed: Place) -> None:
    """Wilson's 95 % interval is 0 to 79 % of 0 of 1 and 21 to 100 % of 1 of 1 (z2 = 3.84: the
    ends are z2 / (1 + z2) = 0.793 and 1 / (1 + z2) = 0.207)."""
    knee = figures_of(practice_of(probed, "Heron"))[0]
    assert retention_words(knee) == (
        "Probes: 1 of 1, 100 % (21 to 100 %); practice: 0 of 1, 0 % (0 to 79 %)."
    )
