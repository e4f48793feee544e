"""The bench of every measure: what it asks, how it counts, and the figures that it leaves."""

from dataclasses import replace
from io import StringIO
from pathlib import Path

import numpy as np
import pytest
from rich.console import Console

from baycue.bench.measure_figures import FEWEST, measure_figures
from baycue.bench.measure_take import MeasuredSwing, answered, from_line, to_line
from baycue.bench.population import draw
from baycue.bench.questions import WITH_TRUTH, Question, questions
from baycue.bench.record import Stated
from baycue.bench.results import add_line
from baycue.bench.staging import staged
from baycue.bench.truths import true_answer
from baycue.commands.bench_measures import MeasuresRequest, run_bench_measures
from baycue.errors import BaycueError, OutputError
from baycue.measures import figures
from baycue.measures.catalogue import measures
from baycue.measures.figures import (
    Figure,
    Figures,
    doubt_of,
    figures_of,
    read_figures,
    write_figures,
)
from baycue.measures.when import When
from baycue.plan.stance import View
from baycue.swing.swing import CheckpointName
from tests.canned_evidence import Filmed, evidence_of

KNEE = "knee past ankle at P6"


def swing(
    number: int, off: float = 0.0, sigma: float = 0.01, view: View = View.FACE_ON
) -> MeasuredSwing:
    """A swing whose true values are a tenth of its number and whose said ones are ``off``."""
    titles = [question.title for question in questions(view)]
    true = dict.fromkeys(titles, number / 10)
    said = {title: Stated(value + off, sigma) for title, value in true.items()}
    return MeasuredSwing(replace(draw(1, number, view=view), fps=30.0), said, true)


def knee_of(swings: list[MeasuredSwing]) -> Figure:
    found = [f for f in measure_figures(swings) if f.measure == "knee past ankle"]
    return next(f for f in found if (f.asked, f.fps) == ("at P6", None))


@pytest.mark.parametrize("view", View)
def test_every_measure_that_a_view_shows_is_asked_and_no_other(view: View) -> None:
    shown = {m.name for m in measures() if view in m.views and m.name in WITH_TRUTH}
    assert {question.measure for question in questions(view)} == shown
    titles = [question.title for question in questions(view)]
    assert len(set(titles)) == len(titles)


@pytest.mark.parametrize("view", View)
def test_the_truth_of_every_question_is_known(view: View) -> None:
    true = staged(draw(1, 0, view=view)).truth
    values = [true_answer(true, q.measure, q.taken) for q in questions(view)]
    assert np.isfinite(values).all()


def test_answers_come_from_the_evidence_alone_and_the_rest_is_missing() -> None:
    gone = Question("knee past ankle", When(CheckpointName.FINISH, CheckpointName.FINISH))
    asked = (Question("knee past ankle", When(CheckpointName.P6, CheckpointName.P6)), gone)
    assert set(answered(evidence_of(Filmed()), asked)) == {KNEE}


def test_a_swing_reads_back_as_it_was_written() -> None:
    one = swing(3, view=View.DOWN_THE_LINE)
    assert from_line(to_line(one)) == one
    with pytest.raises(ValueError, match="JSON"):
        from_line("no swing")


def test_errors_are_said_less_true() -> None:
    figure = knee_of([swing(n, off=0.003 if n % 2 else -0.001) for n in range(10)])
    assert figure.swings == 10
    assert figure.bias == pytest.approx(0.001)
    assert figure.rms == pytest.approx(np.sqrt((0.003**2 + 0.001**2) / 2), rel=1e-3)
    assert figure.true_spread == pytest.approx(np.std(np.arange(10) / 10), rel=1e-3)


def test_coverage_counts_the_stated_intervals() -> None:
    near, off, wild = swing(0, 0.0), swing(1, 0.015), swing(2, 0.03)
    figure = knee_of([near, off, wild])
    assert (figure.one_sigma, figure.two_sigmas) == pytest.approx((1 / 3, 2 / 3), rel=1e-3)


def test_what_was_not_measured_is_counted_as_missing() -> None:
    without = replace(swing(1), said={})
    refused = replace(swing(2), refused="two people are in the picture")
    figure = knee_of([swing(0), without, refused])
    assert (figure.swings, figure.missing) == (1, 1)


def test_exact_answers_are_all_right_and_a_wide_spread_calls_fewer() -> None:
    sure = knee_of([swing(n, sigma=0.001) for n in range(10)])
    unsure = knee_of([swing(n, sigma=0.2) for n in range(10)])
    assert sure.called_right == unsure.called_right == 1.0
    assert unsure.called < 0.75 < 0.95 < sure.called


def test_answers_off_by_a_lot_and_sure_of_it_are_called_wrong() -> None:
    assert knee_of([swing(n, off=0.4, sigma=0.01) for n in range(10)]).called_right < 0.8


def test_a_frame_rate_with_few_swings_gets_no_figure_of_its_own() -> None:
    many = [swing(n) for n in range(FEWEST)]
    fast = [replace(s, draw=replace(s.draw, fps=120.0)) for s in (swing(20), swing(21))]
    rates = {f.fps for f in measure_figures([*many, *fast])}
    assert rates == {None, 30}


def test_a_measure_is_doubted_where_it_errs_as_much_as_golfers_differ_or_is_too_sure() -> None:
    good = Figure("tempo", View.FACE_ON, "", 50, 0.1, 0.0, 0.68, 0.95, true_spread=0.4)
    assert good.doubt == ""
    assert "as much as golfers differ" in replace(good, rms=0.31).doubt
    assert "further off than it said" in replace(good, two_sigmas=0.8).doubt


def test_figures_read_back_as_they_were_written(tmp_path: Path) -> None:
    kept = Figures({"by": "hand"}, measure_figures([swing(n) for n in range(3)]))
    path = tmp_path / "figures.yaml"
    write_figures(path, kept)
    assert read_figures(path) == kept
    assert path.read_text().startswith("# How far each measure was off")


def test_the_command_goes_on_from_what_is_kept(tmp_path: Path) -> None:
    request = MeasuresRequest(2, 1, 1, tmp_path)
    kept = [swing(0), swing(1), swing(0, view=View.DOWN_THE_LINE)]
    for one, drawn in zip(kept, request.draws(), strict=True):
        add_line(request.results, to_line(replace(one, draw=drawn)))
    console = Console(record=True, width=200, file=StringIO())
    reached = run_bench_measures(request, console)
    told = console.export_text()
    assert "hand path out" in told
    assert "knee past ankle at P6 (face-on)" in told
    assert {f.view for f in reached} == set(View)
    assert (tmp_path / "measures.json").exists()


def test_results_of_another_seed_are_refused(tmp_path: Path) -> None:
    request = MeasuresRequest(1, 0, 2, tmp_path)
    add_line(request.results, to_line(swing(0)))
    with pytest.raises(OutputError, match="holds swings of seed 1, not 2"):
        run_bench_measures(request, Console(quiet=True))


def test_a_bench_of_nothing_says_so(tmp_path: Path) -> None:
    with pytest.raises(BaycueError, match="no swings were asked for"):
        run_bench_measures(MeasuresRequest(0, 0, 1, tmp_path), Console(quiet=True))


@pytest.mark.parametrize(
    ("name", "view"),
    [(m.name, v) for m in measures() if m.name in WITH_TRUTH for v in sorted(m.views, key=str)],
)
def test_every_measure_with_a_truth_has_its_figure_in_every_view_that_shows_it(
    name: str, view: View
) -> None:
    """A new measure: run ``baycue bench-measures --write-figures`` and commit figures.yaml."""
    assert [f for f in figures_of(name, view) if f.fps is None], (
        f"{name}, {view.value}: no figure in baycue/measures/figures.yaml; "
        "run: baycue bench-measures --write-figures"
    )


def test_the_figures_say_how_they_were_made() -> None:
    made = read_figures().made
    assert {"by", "date", "code", "swings", "what"} <= set(made)
    assert "no real golfer" in made["what"]


def test_golfers_who_are_alike_say_nothing_of_how_well_they_are_told_apart() -> None:
    alike = Figure("head sway", View.FACE_ON, "", 50, 0.007, 0.0, 0.7, 0.95, true_spread=1e-9)
    assert alike.doubt == ""
    assert "further off than it said" in replace(alike, two_sigmas=0.5).doubt


def test_a_measure_is_doubted_only_if_it_is_however_it_is_taken(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    good = Figure("tempo", View.FACE_ON, "", 50, 0.1, 0.0, 0.68, 0.95, true_spread=0.4)
    bad = replace(good, asked="at P6", rms=0.5)
    for kept, doubted in (((good, bad), False), ((bad,), True), ((), False)):
        monkeypatch.setattr(figures, "_measured", lambda kept=kept: Figures({}, kept))
        assert bool(doubt_of("tempo", View.FACE_ON)) is doubted
