"""The measures' error figures: what the file may hold, and how it is said."""

from pathlib import Path

import pytest
from pydantic import ValidationError

from baycue.measures import figures
from baycue.measures.catalogue import measures
from baycue.measures.figures import Figure, Figures, figures_of, read_figures, say_figure
from baycue.measures.measurement import Unit
from baycue.plan.stance import View

KNEE = Figure("knee past ankle", View.FACE_ON, "at P6", 144, 0.0097, 0.002, 0.73, 0.98)


def test_every_figure_is_of_a_measure_that_there_is() -> None:
    names = {m.name for m in measures()}
    assert all(f.measure in names for f in read_figures().figures)


def test_a_measure_without_figures_says_so() -> None:
    assert figures_of("follow-through flair") == ()
    assert say_figure("follow-through flair", Unit.METRE) == "not measured yet"


def test_figures_are_said_in_the_measures_unit(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(figures, "_measured", lambda: Figures({}, (KNEE,)))
    assert say_figure(KNEE.measure, Unit.METRE) == "9.7 mm RMS, at P6 (144 swings)"
    assert say_figure(KNEE.measure, Unit.METRE, View.DOWN_THE_LINE) == "not measured yet"
    assert figures_of(KNEE.measure, View.FACE_ON) == (KNEE,)


def test_a_file_that_is_none_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "figures.yaml"
    path.write_text("made: {}\nfigures: [{measure: tempo, rms: none}]\n")
    with pytest.raises(ValidationError, match="rms"):
        read_figures(path)
