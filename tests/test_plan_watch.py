"""A plan file saved again and again: taken when good and whole, never lost by a broken edit."""

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baycue.errors import PlanError
from baycue.plan.watch import FileOnDisk, PlanWatch
from tests.held_plan import BROKEN, FIVE, PATH, SIX, HeldFile


def least_cm(watch: PlanWatch) -> float:
    low = watch.plan.targets[0].bound.low
    assert low is not None
    return round(low.value * 100)


def test_a_plan_that_is_wrong_from_the_start_is_refused() -> None:
    with pytest.raises(PlanError, match=r"heron\.yaml:6: targets\[1\]\.at_least"):
        PlanWatch(PATH, HeldFile(BROKEN))


def test_a_saved_plan_is_taken_at_the_second_look() -> None:
    file = HeldFile()
    watch = PlanWatch(PATH, file)
    file.save(SIX)
    assert watch.news() is None
    assert least_cm(watch) == 5
    news = watch.news()
    assert news is not None
    assert news.plan is watch.plan
    assert (news.faults, least_cm(watch)) == ((), 6)
    assert watch.news() is None


def test_nothing_saved_reads_nothing() -> None:
    file = HeldFile()
    watch = PlanWatch(PATH, file)
    assert [watch.news() for _ in range(5)] == [None] * 5
    assert file.reads == 1


def test_the_same_text_saved_again_is_no_news() -> None:
    file = HeldFile()
    watch = PlanWatch(PATH, file)
    file.save(FIVE)
    assert [watch.news(), watch.news(), watch.news()] == [None] * 3


def test_a_broken_edit_keeps_the_last_good_plan_and_says_where_it_is_wrong() -> None:
    file = HeldFile()
    watch = PlanWatch(PATH, file)
    file.save(BROKEN)
    watch.news()
    news = watch.news()
    assert news is not None
    assert news.plan is None
    assert news.faults[0].startswith(f"{PATH}:6: targets[1].at_least: ")
    assert news.briefly == 'line 6, at_least: "5" has no unit for "knee past ankle"'
    assert least_cm(watch) == 5
    assert watch.news() is None  # told once


def test_going_back_to_the_good_text_is_news_again() -> None:
    file = HeldFile()
    watch = PlanWatch(PATH, file)
    for text in (BROKEN, FIVE):
        file.save(text)
        watch.news()
        news = watch.news()
    assert news is not None
    assert news.plan is not None


def test_several_faults_are_counted() -> None:
    file = HeldFile()
    watch = PlanWatch(PATH, file)
    file.save(BROKEN.replace("178 cm", "178").replace("right", "rigth"))
    watch.news()
    news = watch.news()
    assert news is not None
    assert news.briefly.startswith('line 2, handedness: "rigth" is not a known handedness')
    assert news.briefly.endswith("(and 2 more)")


def test_a_file_that_is_gone_is_told_unless_it_is_back_at_once() -> None:
    file = HeldFile()
    watch = PlanWatch(PATH, file)
    file.save(None)
    assert watch.news() is None
    file.save(SIX)  # an editor that renames over it
    assert watch.news() is None
    assert watch.news() is not None
    file.save(None)
    watch.news()
    news = watch.news()
    assert news is not None
    assert news.briefly == "cannot be read: No such file or directory"
    assert least_cm(watch) == 6


def test_half_a_file_between_two_looks_is_not_read() -> None:
    file = HeldFile()
    watch = PlanWatch(PATH, file)
    for length in range(0, len(SIX), 40):
        file.save(SIX[:length])
        assert watch.news() is None
    file.save(SIX)
    assert watch.news() is None
    assert watch.news() is not None
    assert file.reads == 2


@given(st.lists(st.one_of(st.sampled_from([FIVE, SIX, BROKEN, None]), st.text(max_size=30))))
def test_whatever_is_saved_there_is_a_plan_and_it_is_the_last_good_one(
    saves: list[str | None],
) -> None:
    file = HeldFile()
    watch = PlanWatch(PATH, file)
    good = FIVE
    for text in saves:
        file.save(text)
        watch.news()
        watch.news()
        good = text if text in (FIVE, SIX) else good
        assert least_cm(watch) == (5 if good == FIVE else 6)


def test_a_real_file_is_watched(tmp_path: Path) -> None:
    path = tmp_path / "heron.yaml"
    path.write_text(FIVE)
    watch = PlanWatch(path)
    new = tmp_path / "new.yaml"
    new.write_text(SIX)
    new.replace(path)
    assert FileOnDisk(path).stamp() != FileOnDisk(tmp_path / "none.yaml").stamp() is None
    assert [watch.news() is None, watch.news() is None] == [True, False]
    assert least_cm(watch) == 6
    path.unlink()
    watch.news()
    news = watch.news()
    assert news is not None
    assert "cannot be read" in news.briefly


def test_a_save_of_the_same_size_and_time_is_seen(tmp_path: Path) -> None:
    path = tmp_path / "heron.yaml"
    path.write_text(FIVE)
    watch, before = PlanWatch(path), path.stat()
    path.write_text(SIX)
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
    assert len(FIVE) == len(SIX)
    assert [watch.news() is None, watch.news() is None] == [True, False]
    assert least_cm(watch) == 6


def test_a_folder_or_a_pipe_in_its_place_is_not_waited_for(tmp_path: Path) -> None:
    path = tmp_path / "heron.yaml"
    path.write_text(FIVE)
    watch = PlanWatch(path)
    path.unlink()
    os.mkfifo(path)
    assert watch.news() is None
    news = watch.news()
    assert news is not None
    assert news.briefly == "is no plain file"
    assert least_cm(watch) == 5
