"""The fault campaign in short: a few quick faults upon a real session, each of which ends well."""

import shutil
from pathlib import Path

import pytest

from baycue.commands.rehearse_faults import faults_table, the_bays_files
from baycue.live.view import Stage
from baycue.rehearsal.faults import display
from baycue.rehearsal.faults.kinds import faults
from baycue.rehearsal.faults.live_process import Line, answered_in
from baycue.rehearsal.faults.moods import MOODS
from baycue.rehearsal.faults.result import FaultResult, read_result, write_result
from baycue.rehearsal.faults.run import rehearse_together

pytestmark = pytest.mark.skipif(
    shutil.which("prlimit") is None, reason="faults are put upon Linux processes"
)
QUICK = ("camera-cut", "plan-broken", "scoring-killed", "session-killed")


def test_there_are_many_faults_each_with_a_name_of_its_own() -> None:
    names = [fault.name for fault in faults()]
    assert len(names) == len(set(names)) >= 25


def test_quick_faults_end_well() -> None:
    chosen = [fault for name in QUICK for fault in faults() if fault.name == name]
    assert rehearse_together(chosen, the_bays_files()) == ""


def test_swings_that_could_not_be_judged_have_numbers_too() -> None:
    told = (
        "swing 1: FAIL (716 ms after impact). knee past ankle at P6: -0.5 cm",
        "swing 2 cannot be judged: for 0.2 s no picture could be looked at",
        "swing 2 is not kept: the disk is full",
        "swing 3: TOO CLOSE TO CALL (90 ms after impact). tempo: 3.1",
        "swing 4: judged and kept, not told",
        "camera offline",
        "swing 6: PASS (80 ms after impact). tempo: 3.0",
    )
    assert answered_in([Line(0.0, text) for text in told]) == [1, 2, 3, 4, 6]


def test_a_result_is_kept_and_read_again(tmp_path: Path) -> None:
    result = FaultResult("a", "done", "saw", 1.0, None, 3, "nothing", "", "2026-11-26", 40.0)
    write_result(tmp_path, result)
    assert read_result(tmp_path, "a") == result
    assert read_result(tmp_path, "b") is None
    assert faults_table([result]).row_count == 1


def test_8_pictures_of_30_are_sent_by_a_slow_camera() -> None:
    sent = list(MOODS["slow"](iter([b"x"] * 300), lambda: True))
    assert len(sent) == 80


def test_a_stage_that_is_not_shown_is_not_seen() -> None:
    """The screenshot's check can fail: it tells one page of large words from another."""

    offline, paused = (display.page_of(stage) for stage in (Stage.OFFLINE, Stage.PAUSED))
    assert display.same_headline(offline, offline)
    assert not display.same_headline(offline, paused)
