"""Results on disk: kept at once, gone on with, never mixed; and what is told of them."""

import io
import json
from dataclasses import dataclass
from pathlib import Path

import pytest
from rich.console import Console

from baycue.bench.figures import figures_of
from baycue.bench.floors import FLOORS, fallen
from baycue.bench.page import page
from baycue.bench.population import draw
from baycue.bench.record import Record, from_line, to_line
from baycue.bench.results import add_result, missing_numbers, read_results
from baycue.bench.run import run
from baycue.cli import main
from baycue.commands.bench import BenchRequest, refuse_fallen, run_bench, short_request
from baycue.errors import BaycueError, OutputError
from tests.bench_records import record, taken, unseen


@dataclass(frozen=True)
class Finished:
    """A bench that was run, and what it printed."""

    request: BenchRequest
    said: str


def test_a_record_survives_its_line() -> None:
    for kept in (record(3, late_s=0.0123), unseen(4)):
        assert from_line(to_line(kept)) == kept
        assert "\n" not in to_line(kept)


def test_a_run_goes_on_where_it_stopped(tmp_path: Path) -> None:
    file = tmp_path / "new" / "bench.jsonl"
    assert read_results(file, seed=1) == ()
    for number in (0, 3):
        add_result(file, record(number))
    kept = read_results(file, seed=1)
    assert kept == (record(0), record(3))
    assert missing_numbers(kept, 5) == (1, 2, 4)


def test_swings_taken_in_other_processes_are_kept_even_if_a_later_one_breaks(
    tmp_path: Path,
) -> None:
    file, draws = tmp_path / "bench.jsonl", [draw(1, number) for number in (0, 1, 2)]
    with pytest.raises(ValueError, match="number 2 breaks"):
        list(run(draws, file, 1, taken))
    assert [kept.draw for kept in read_results(file, seed=1)] == draws[:2]


def test_a_line_cut_short_is_left_out_and_taken_again(tmp_path: Path) -> None:
    file = tmp_path / "bench.jsonl"
    add_result(file, record(0))
    with file.open("a") as cut:
        cut.write(to_line(record(1))[:100])
    assert read_results(file, seed=1) == (record(0),)
    add_result(file, record(2))
    assert read_results(file, seed=1) == (record(0), record(2))


def test_another_seed_s_results_are_refused(tmp_path: Path) -> None:
    add_result(tmp_path / "bench.jsonl", record(0))
    with pytest.raises(OutputError, match=r"seed 1, not 2"):
        read_results(tmp_path / "bench.jsonl", seed=2)


def test_a_file_that_is_no_result_is_named_with_its_line(tmp_path: Path) -> None:
    file = tmp_path / "bench.jsonl"
    add_result(file, record(0))
    file.write_text(file.read_text() + '{"draw": 1}\n')
    with pytest.raises(OutputError, match=r"bench\.jsonl, line 2"):
        read_results(file, seed=1)


@pytest.fixture(scope="module")
def finished(tmp_path_factory: pytest.TempPathFactory) -> Finished:
    """A bench whose results are all there, so that nothing is rendered."""
    request = BenchRequest(swings=3, seed=1, out=tmp_path_factory.mktemp("bench"), workers=1)
    for number in range(3):
        add_result(request.file("jsonl"), record(number, late_s=0.001 * number))
    console = Console(record=True, width=150, file=io.StringIO())
    run_bench(request, console)
    return Finished(request, console.export_text())


def test_a_finished_bench_is_told_without_taking_it_again(finished: Finished) -> None:
    assert "3 swings of seed 1" in finished.said
    assert "76.1 %" in finished.said
    assert "synthetic" in finished.said


def test_the_figures_are_written_as_json(finished: Finished) -> None:
    document = json.loads(finished.request.file("json").read_text())
    assert document["swings"] == 3
    assert {goal["met"] for goal in document["goals"]} == {True, False}


def test_the_page_needs_nothing_beside_it(finished: Finished) -> None:
    pytest.importorskip("matplotlib")
    text = finished.request.file("html").read_text()
    assert text.count("data:image/png;base64,") == text.count("<img") == 6
    assert "http" not in text


def test_without_matplotlib_the_page_has_its_tables(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(__import__("sys").modules, "matplotlib.figure", None)
    text = page(figures_of([record(0)]), [record(0)], "by hand")
    assert "<img" not in text
    assert "Goals" in text


def test_good_figures_stand_on_every_floor() -> None:
    assert fallen(figures_of([record(n) for n in range(4)]), FLOORS) == ()


@pytest.mark.parametrize(
    ("records", "named"),
    [
        ([record(0), unseen(1)], "swings found"),
        ([record(0, late_s=0.02)], "P6, median"),
        ([record(0, late_s=-0.02)], "impact, median"),
        ([record(n, late_s=0.06 if n < 2 else 0.0) for n in range(20)], "top, 95th"),
        ([record(0, off=0.03)], "knee past ankle"),
        ([record(0, off=-0.03)], "head rise"),
        ([unseen(0)], "P6, median is nan"),
    ],
)
def test_a_floor_breaks_when_it_should(records: list[Record], named: str) -> None:
    figures = figures_of(records)
    assert any(line.startswith(named) for line in fallen(figures, FLOORS))
    with pytest.raises(BaycueError, match="bench: "):
        refuse_fallen(figures, FLOORS)


def test_the_short_bench_has_floors_and_files_of_its_own(tmp_path: Path) -> None:
    short, full = short_request(tmp_path, 2), BenchRequest(200, 1, tmp_path, 2)
    assert short.floors == FLOORS
    assert not full.floors
    assert short.file("jsonl") != full.file("jsonl")
    assert {d.fps for d in short.draws()} == {30.0}


def test_the_command_teaches_with_an_example(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["bench", "--help"])
    assert "Example: baycue bench" in " ".join(capsys.readouterr().out.split())
