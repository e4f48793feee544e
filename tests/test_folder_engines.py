"""The same bytes for a clip, whoever scores it and beside how many others."""

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from baycue.errors import BaycueError
from baycue.folder.clips import Clip, clips_in
from baycue.folder.cluster import LOCAL, cluster_engine
from baycue.folder.engine import Engine, Stopped, process_engine, result_of
from tests.command_line import SAMPLE
from tests.conftest import MakeClip
from tests.folder_scores import PLAN_TEXT, canned, make_clips


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A sample, a copy that is cut off, and a file that is no video."""
    place = tmp_path_factory.mktemp("clips")
    whole = SAMPLE.read_bytes()
    (place / "whole.mp4").write_bytes(whole)
    (place / "cut.mp4").write_bytes(whole[: len(whole) // 2])
    (place / "text.mkv").write_text("not a video at all\n" * 40)
    return place


@pytest.fixture(scope="module")
def scored_here(folder: Path) -> dict[Clip, bytes]:
    """Each clip's result, worked out in this process."""
    return {clip: result_of(clip, PLAN_TEXT) for clip in clips_in(folder)}


@pytest.fixture
def local_cluster() -> Iterator[Engine]:
    pytest.importorskip("distributed", reason="the extra baycue[academy] is not installed")
    with cluster_engine(LOCAL, 2) as engine:
        yield engine


def test_processes_give_the_same_bytes(folder: Path, scored_here: dict[Clip, bytes]) -> None:
    clips = [*scored_here, Clip("again.mp4", folder / "whole.mp4")]
    scored = dict(process_engine(2)(clips, PLAN_TEXT))
    again = scored.pop(clips[-1])
    assert scored == scored_here
    assert again == scored_here[clips_in(folder)[-1]]


def test_a_cluster_gives_the_same_bytes(
    local_cluster: Engine, scored_here: dict[Clip, bytes]
) -> None:
    assert dict(local_cluster(tuple(scored_here), PLAN_TEXT)) == scored_here


def test_the_bytes_do_not_depend_on_where_the_clip_lies(
    tmp_path: Path, scored_here: dict[Clip, bytes]
) -> None:
    (cut,) = (clip for clip in scored_here if clip.name == "cut.mp4")
    (tmp_path / "cut.mp4").write_bytes(cut.path.read_bytes())
    elsewhere = result_of(Clip("bay/cut.mp4", tmp_path / "cut.mp4"), PLAN_TEXT)
    assert elsewhere == scored_here[cut]
    assert b"cut off before its end" in elsewhere
    assert str(tmp_path).encode() not in elsewhere


def test_a_clip_still_being_copied_has_no_result(
    make_clip: MakeClip, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The digest is taken again when the clip has been scored."""
    digests = iter(["as it began", "as it ended"])
    monkeypatch.setattr("baycue.folder.clip_result.sha256_of", lambda _: next(digests))
    with pytest.raises(BaycueError, match="changed while it was scored"):
        result_of(Clip("clip.mp4", make_clip([0])), PLAN_TEXT)


def test_on_a_cluster_trouble_with_a_clip_stops_no_other(tmp_path: Path) -> None:
    pytest.importorskip("distributed", reason="the extra baycue[academy] is not installed")
    clips = make_clips(tmp_path, one="a", two="fault", three="copying", four="a")
    with cluster_engine(LOCAL, 1, canned) as engine:
        scored = {clip.name: answer for clip, answer in engine(clips, PLAN_TEXT)}
    assert scored["two.mp4"] == Stopped("ZeroDivisionError: a bug")
    assert scored["three.mp4"] == Stopped("three.mp4: changed while it was scored")
    assert isinstance(scored["one.mp4"], bytes)
    assert isinstance(scored["four.mp4"], bytes)


def test_a_scheduler_that_is_no_address_is_told() -> None:
    pytest.importorskip("distributed", reason="the extra baycue[academy] is not installed")
    with (
        pytest.raises(BaycueError, match="no Dask scheduler answers there"),
        cluster_engine("carrier-pigeon://loft", 1),
    ):
        pass


def test_without_dask_the_extra_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "distributed", None)
    with (
        pytest.raises(BaycueError, match=r'pip install "baycue\[academy\]"'),
        cluster_engine(LOCAL, 1),
    ):
        pass


def test_dask_is_loaded_only_when_it_is_asked_for() -> None:
    code = "import sys, baycue.commands.score_folder; print('distributed' in sys.modules)"
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == "False"
