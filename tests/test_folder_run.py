"""Many clips, each kept as soon as it is there; trouble with one stops no other."""

import dataclasses
import json
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

from baycue.errors import OutputError, RecordingError
from baycue.folder.clip_result import ClipResult, origin_of
from baycue.folder.clips import Clip, clips_in
from baycue.folder.engine import Answer, process_engine
from baycue.folder.run import Told, score_folder
from baycue.folder.store import Store
from baycue.keep.record import PlanText
from tests.command_line import files
from tests.folder_scores import PLAN_TEXT, canned, make_clips


def at_once(clips: Sequence[Clip], plan: PlanText) -> Iterator[tuple[Clip, Answer]]:
    """An engine that works in this process."""
    return ((clip, canned(clip, plan)) for clip in clips)


def refuses(clips: Sequence[Clip], plan: PlanText) -> Iterator[tuple[Clip, Answer]]:
    """An engine that must have nothing to do."""
    assert not clips
    return iter(())


def news_of(told: Iterator[Told]) -> dict[str, str]:
    return {one.clip.name: one.news for one in told}


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path / "out" / "results")


def test_every_clip_below_the_folder_is_found_and_nothing_else(tmp_path: Path) -> None:
    make_clips(tmp_path / "bay 2" / "May", late="a")
    make_clips(tmp_path, early="a")
    make_clips(tmp_path / ".trash", gone="a")
    (tmp_path / "LOUD.MOV").write_text("a")
    (tmp_path / "notes.txt").write_text("a")
    (tmp_path / "folder.mp4").mkdir()
    found = clips_in(tmp_path)
    assert [clip.name for clip in found] == ["LOUD.MOV", "bay 2/May/late.mp4", "early.mp4"]
    assert all(clip.path == tmp_path / clip.name for clip in found)


@pytest.mark.parametrize(("name", "told"), [("", "holds no recording"), ("x", "no such folder")])
def test_a_folder_without_clips_is_told(name: str, told: str, tmp_path: Path) -> None:
    with pytest.raises(RecordingError, match=told):
        clips_in(tmp_path / name)


def test_what_is_kept_is_what_was_scored_to_the_byte(tmp_path: Path, store: Store) -> None:
    (clip,) = make_clips(tmp_path / "in" / "bay", swing="a")
    clip = dataclasses.replace(clip, name="bay/swing.mp4")
    (told,) = score_folder([clip], PLAN_TEXT, store, at_once)
    (written,) = files(store.folder)
    assert written == store.file("bay/swing.mp4", origin_of(clip.path, PLAN_TEXT))
    assert written.read_bytes() == canned(clip, PLAN_TEXT)
    assert told.result == ClipResult.model_validate_json(written.read_bytes())


def test_a_second_run_has_nothing_to_do(tmp_path: Path, store: Store) -> None:
    clips = make_clips(tmp_path, one="a", two="damaged")
    assert set(news_of(score_folder(clips, PLAN_TEXT, store, at_once)).values()) == {"scored"}
    before = files(tmp_path)
    assert set(news_of(score_folder(clips, PLAN_TEXT, store, refuses)).values()) == {"kept"}
    assert files(tmp_path) == before


def test_a_run_that_was_cut_off_goes_on(tmp_path: Path, store: Store) -> None:
    clips = make_clips(tmp_path, one="a", two="a", three="a")
    next(score_folder(clips, PLAN_TEXT, store, at_once))
    assert sorted(news_of(score_folder(clips, PLAN_TEXT, store, at_once)).values()) == [
        "kept",
        "scored",
        "scored",
    ]


def test_a_changed_clip_and_a_changed_plan_are_scored_anew_and_told_so(
    tmp_path: Path, store: Store
) -> None:
    clips = make_clips(tmp_path, one="a", two="a")
    list(score_folder(clips, PLAN_TEXT, store, at_once))
    before = files(store.folder)
    clips[0].path.write_text("another take")
    assert news_of(score_folder(clips, PLAN_TEXT, store, at_once)) == {
        "one.mp4": "scored anew: the clip changed",
        "two.mp4": "kept",
    }
    other = dataclasses.replace(PLAN_TEXT, text=PLAN_TEXT.text + "\n# harder now\n")
    assert set(news_of(score_folder(clips, other, store, at_once)).values()) == {
        "scored anew: the plan changed"
    }
    assert before.items() <= files(store.folder).items()
    assert len(files(store.folder)) == 5


def test_a_result_of_when_the_usual_band_was_one_is_scored_anew_and_stays(
    tmp_path: Path, store: Store
) -> None:
    """Such a result says nothing of its band."""
    (clip,) = make_clips(tmp_path / "in", one="a")
    old = json.loads(canned(clip, PLAN_TEXT))
    assert old.pop("usual_band") == 1.3
    store.keep(clip.name, json.dumps(old).encode())
    before = files(store.folder)
    news = news_of(score_folder([clip], PLAN_TEXT, store, at_once))
    assert news == {"one.mp4": "scored anew: the program changed"}
    assert before.items() <= files(store.folder).items()
    assert len(files(store.folder)) == 2


def test_going_back_to_an_earlier_plan_finds_its_results(tmp_path: Path, store: Store) -> None:
    clips = make_clips(tmp_path, one="a")
    other = dataclasses.replace(PLAN_TEXT, text=PLAN_TEXT.text + "\n# harder now\n")
    for plan in (PLAN_TEXT, other):
        list(score_folder(clips, plan, store, at_once))
    assert news_of(score_folder(clips, PLAN_TEXT, store, refuses)) == {"one.mp4": "kept"}


def test_a_damaged_result_is_set_aside_and_made_again(tmp_path: Path, store: Store) -> None:
    clips = make_clips(tmp_path, one="a")
    (told,) = score_folder(clips, PLAN_TEXT, store, at_once)
    assert told.result
    result = store.file("one.mp4", told.result.origin)
    whole = result.read_bytes()
    result.write_bytes(whole[:200])
    news = news_of(score_folder(clips, PLAN_TEXT, store, at_once))
    assert news == {"one.mp4": "scored anew: its result was damaged"}
    assert result.read_bytes() == whole
    assert result.with_name(result.name + ".damaged-1").read_bytes() == whole[:200]


def test_results_are_never_overwritten(tmp_path: Path, store: Store) -> None:
    (clip,) = make_clips(tmp_path, one="a")
    store.keep(clip.name, canned(clip, PLAN_TEXT))
    with pytest.raises(OutputError, match="never overwritten"):
        store.keep(clip.name, canned(clip, PLAN_TEXT))


def test_a_disk_that_refuses_leaves_nothing_half_written(tmp_path: Path) -> None:
    (clip,) = make_clips(tmp_path, one="a")
    (tmp_path / "out").write_text("a file where a folder should be")
    with pytest.raises(OutputError, match="cannot be written"):
        Store(tmp_path / "out").keep(clip.name, canned(clip, PLAN_TEXT))
    assert len(files(tmp_path)) == 2


def test_trouble_with_a_clip_is_told_and_stops_no_other(tmp_path: Path, store: Store) -> None:
    """In processes of their own: one refused, one being copied, a bug, a process that dies."""
    contents = ("a", "damaged", "copying", "fault", "crash", "a", "a")
    clips = make_clips(tmp_path, **{f"clip{n}": text for n, text in enumerate(contents)})
    missing = Clip("gone.mp4", tmp_path / "gone.mp4")
    told = score_folder([*clips, missing], PLAN_TEXT, store, process_engine(2, canned))
    by_name = {one.clip.name: one for one in told}
    assert len(by_name) == 8
    assert by_name["clip1.mp4"].result
    assert by_name["clip1.mp4"].result.refused == "damaged or cut off"
    stopped = {name: one.stopped for name, one in by_name.items() if one.stopped}
    assert stopped == {
        "clip2.mp4": "clip2.mp4: changed while it was scored",
        "clip3.mp4": "ZeroDivisionError: a bug",
        "clip4.mp4": "the process that scored it died: a fault, or too little memory",
        "gone.mp4": "cannot be read (No such file or directory)",
    }
    assert len(files(store.folder)) == 4


def test_an_answer_in_another_format_is_told(tmp_path: Path, store: Store) -> None:
    clips = make_clips(tmp_path, one="a")
    strange = json.dumps({"format": "something else"}).encode()
    (told,) = score_folder(clips, PLAN_TEXT, store, lambda cs, _: iter([(cs[0], strange)]))
    assert told.stopped == "what scored it answers in another format"
    assert not files(store.folder)


def test_what_a_killed_run_left_half_written_does_not_stand_in_the_way(
    tmp_path: Path, store: Store
) -> None:
    (clip,) = make_clips(tmp_path, one="a")
    result = store.file(clip.name, origin_of(clip.path, PLAN_TEXT))
    result.parent.mkdir(parents=True)
    result.with_name(result.name + ".partial").write_text("half of a resu")
    (told,) = score_folder([clip], PLAN_TEXT, store, at_once)
    assert told.news == "scored"
    assert list(files(store.folder)) == [result]
