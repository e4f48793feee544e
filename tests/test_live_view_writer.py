"""Views written from the live screen: in another process, and never while a swing is judged."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import cv2
import numpy as np
import pytest

from baycue.live import view_writer
from baycue.live.view_writer import TOLD_NS, ViewWriter
from baycue.live.writing_process import ViewRequest, written
from baycue.replay.export import SIZE_PX, Export, export_still
from baycue.replay.film import SwingFilm
from baycue.replay.showing import showing
from tests.patience import wait_until
from tests.replayed_swing import swing_film

VIEW = showing(swing_film(), swing_film(3))


@pytest.fixture
def writer(tmp_path: Path) -> Iterator[ViewWriter]:
    made = ViewWriter(tmp_path / "out")
    yield made
    made.close()


def test_it_waits_until_nobody_is_judged_and_then_tells(writer: ViewWriter, tmp_path: Path) -> None:
    still = tmp_path / "out" / "swing_001-1.png"
    writer.let(free=False)
    writer.ask(VIEW, Export.STILL, 0)
    assert writer.words(0) == "writing a still"
    wait_until((tmp_path / "out").exists)
    assert not still.exists(), "its folder is made before it waits for its turn"
    writer.let(free=True)
    lines = list[str]()

    def told() -> bool:
        lines.extend(writer.news(7))
        return bool(lines)

    wait_until(told)
    assert lines == [f"written to {still}"]
    assert writer.words(7) == lines[0]
    assert writer.words(7 + TOLD_NS) == ""
    picture = cv2.imread(str(still))
    assert picture is not None
    assert picture.shape[1::-1] == SIZE_PX


def test_the_end_of_the_session_waits_for_what_was_asked(tmp_path: Path) -> None:
    writer = ViewWriter(tmp_path)
    writer.let(free=False)
    for _ in range(2):
        writer.ask(VIEW, Export.STILL, 0)
    writer.close()
    assert writer.news(0) == tuple(f"written to {tmp_path}/swing_001-{n}.png" for n in (1, 2))


def test_faces_are_blurred_in_files_on_request(tmp_path: Path) -> None:
    film = swing_film()
    noise = np.random.default_rng(1).integers(0, 255, film.picture(0).shape, dtype=np.uint8)
    shots = tuple(replace(shot, content=noise) for shot in film.shots)
    view = showing(SwingFilm(shots, film.scored))
    writer = ViewWriter(tmp_path, blur_faces=True)
    writer.ask(view, Export.STILL, 0)
    writer.close()
    export_still(view, tmp_path / "plain.png")
    export_still(view.with_faces_blurred(), tmp_path / "blurred.png")
    plain, blurred = (tmp_path / f"{name}.png" for name in ("plain", "blurred"))
    assert plain.read_bytes() != blurred.read_bytes()
    assert (tmp_path / "swing_001-1.png").read_bytes() == blurred.read_bytes()


def test_too_many_are_refused(writer: ViewWriter, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(view_writer, "MOST_WAITING", 1)
    writer.ask(VIEW, Export.STILL, 0)
    writer.ask(VIEW, Export.FILM, 1)
    assert writer.words(1) == "not written: 1 file is still being written"


def test_what_cannot_be_written_is_told(tmp_path: Path) -> None:
    taken = tmp_path / "taken"
    taken.write_text("the golfer's own")
    turns = list[int]()
    came = written(ViewRequest(VIEW, Export.GIF, taken, "swing_001"), lambda: turns.append(1))
    assert came.path is None
    assert str(taken) in came.refusal
    assert (turns, taken.read_text()) == ([], "the golfer's own")


@pytest.mark.parametrize("what", [Export.GIF, Export.FILM])
def test_each_picture_waits_for_its_turn(what: Export, tmp_path: Path) -> None:
    class NotNowError(Exception):
        """A swing has begun."""

    turns = list[int]()

    def two_only() -> None:
        turns.append(1)
        if len(turns) > 2:
            raise NotNowError

    with pytest.raises(NotNowError):
        written(ViewRequest(VIEW, what, tmp_path, "swing_001"), two_only)
    assert len(turns) == 3
