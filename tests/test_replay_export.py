"""What is exported, read back with other eyes than those that wrote it."""

from dataclasses import replace
from pathlib import Path

import av
import cv2
import pytest

from baycue.errors import OutputError
from baycue.replay.export import SIZE_PX, export_film, export_gif, export_still, free_name
from baycue.replay.showing import Showing, downswing_ns, showing
from tests.replayed_swing import swing_film


@pytest.fixture
def downswing() -> Showing:
    film = swing_film()
    shown = showing(film, speed=0.5)
    return replace(shown, player=shown.player.looping(downswing_ns(film)))


def test_the_film_lasts_as_long_as_it_is_played(downswing: Showing, tmp_path: Path) -> None:
    export_film(downswing, tmp_path / "down.mp4")
    low, high = downswing.player.stretch_ns
    inside = [t for t in downswing.film.stamps_ns if low <= t <= high]
    with av.open(str(tmp_path / "down.mp4")) as container:
        frames = list(container.decode(video=0))
    assert (frames[0].width, frames[0].height) == SIZE_PX
    assert len(frames) == len(inside)
    lasts_s = frames[-1].time - frames[0].time
    assert lasts_s == pytest.approx(2 * (inside[-1] - inside[0]) * 1e-9, abs=1e-4)


def test_the_gif_moves_and_lasts_as_long(downswing: Showing, tmp_path: Path) -> None:
    export_gif(downswing, tmp_path / "down.gif")
    with av.open(str(tmp_path / "down.gif")) as container:
        frames = [f.to_ndarray(format="bgr24") for f in container.decode(video=0)]
    low, high = downswing.player.stretch_ns
    assert len(frames) == pytest.approx(12 * (high - low) / 0.5e9, abs=1.01)
    assert (frames[0] != frames[-1]).any()


def test_a_gif_has_its_name_only_when_it_is_whole(downswing: Showing, tmp_path: Path) -> None:
    seen = list[set[str]]()
    export_gif(downswing, tmp_path / "down.gif", lambda: seen.append(files_in(tmp_path)))
    assert seen[-1] == {"down.gif.partial"}
    assert files_in(tmp_path) == {"down.gif"}


def files_in(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def test_a_name_that_a_kill_left_half_written_is_not_taken_again(tmp_path: Path) -> None:
    (tmp_path / "replay-1.mp4.partial").touch()
    assert free_name(tmp_path, "replay", ".mp4") == tmp_path / "replay-2.mp4"


def test_the_still_is_the_view(downswing: Showing, tmp_path: Path) -> None:
    export_still(downswing, tmp_path / "down.png")
    picture = cv2.imread(str(tmp_path / "down.png"))
    assert picture is not None
    assert picture.shape == (SIZE_PX[1], SIZE_PX[0], 3)


@pytest.mark.parametrize("export", [export_film, export_gif, export_still])
def test_nothing_is_overwritten(export: object, downswing: Showing, tmp_path: Path) -> None:
    assert callable(export)
    taken = tmp_path / "taken"
    taken.write_text("the golfer's own")
    with pytest.raises(OutputError, match="overwritten"):
        export(downswing, taken)
    assert taken.read_text() == "the golfer's own"


def test_the_first_free_name_is_taken(tmp_path: Path) -> None:
    assert free_name(tmp_path, "replay", ".gif").name == "replay-1.gif"
    (tmp_path / "replay-1.gif").touch()
    assert free_name(tmp_path, "replay", ".gif").name == "replay-2.gif"
