"""The README's table of the measures' errors says what ``figures.yaml`` says, row by row."""

import pytest

from baycue.measures.catalogue import measure_named
from baycue.measures.figures import Figure, read_figures
from baycue.measures.measurement import Unit
from tests.command_line import PROJECT

README = (PROJECT / "README.md").read_text(encoding="utf-8").splitlines()
ALL_RATES = [figure for figure in read_figures().figures if figure.fps is None]


def row(figure: Figure) -> str:
    """One row as the README has it; (!) where the measure is not to be trusted."""
    measure = measure_named(figure.measure)
    assert measure is not None
    error, bias = _said(figure, measure.unit)
    doubted = "(!) " if figure.doubt or measure.doubt else ""
    shares = f"{100 * figure.one_sigma:.0f}, {100 * figure.two_sigmas:.0f} %"
    return (
        f"| {doubted}{figure.measure} | {figure.asked or 'whole swing'} | {error} | {bias} "
        f"| {shares} |"
    )


def _said(figure: Figure, unit: Unit) -> tuple[str, str]:
    if unit is Unit.METRE:
        return f"{1000 * figure.rms:.0f} mm", f"{1000 * figure.bias:+.0f}"
    if unit is Unit.SECOND:
        return f"{1000 * figure.rms:.0f} ms", f"{1000 * figure.bias:+.0f}"
    if unit is Unit.DEGREE:
        return f"{figure.rms:.1f} deg", f"{figure.bias:+.1f}"
    return f"{figure.rms:.2f}", f"{figure.bias:+.2f}"


@pytest.mark.parametrize("figure", ALL_RATES, ids=lambda f: f"{f.view.value} {f.measure} {f.asked}")
def test_the_readme_states_each_figure(figure: Figure) -> None:
    assert row(figure) in README


def test_the_readme_states_no_figure_that_there_is_not() -> None:
    starts = [k for k, line in enumerate(README) if "| within one, two sigmas |" in line]
    assert len(starts) == 2, "face-on and down the line"
    stated = [line for start in starts for line in README[start + 2 : README.index("", start)]]
    assert sorted(stated) == sorted(map(row, ALL_RATES))
