"""The benchmark of a folder; how fast it is is nothing to test."""

import io
import re
from pathlib import Path

from rich.console import Console

from baycue.commands.benchmark_folder import run_benchmark_folder
from tests.command_line import PLAN, files
from tests.folder_scores import canned, make_clips


def test_both_speeds_and_their_ratio_are_printed_and_nothing_is_kept(tmp_path: Path) -> None:
    make_clips(tmp_path, one="a", two="damaged", three="fault")
    before = files(tmp_path)
    console = Console(file=io.StringIO(), width=200, record=True)
    run_benchmark_folder(tmp_path, PLAN, 2, console, canned)
    said = console.export_text()
    assert re.search(
        r"3 clips on .*: one process [\d.]+ a minute, 2 processes [\d.]+; ratio [\d.]+; "
        r"results the same to the byte",
        said,
    )
    assert files(tmp_path) == before
