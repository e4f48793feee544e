"""Retention in the coach's report: silent probes against practice, from what was kept."""

from dataclasses import replace
from pathlib import Path

import pytest

from baycue.coach_report.figures import TargetFigures, figures_of
from baycue.coach_report.from_log import practice_of
from baycue.coach_report.words import asked, retention_words
from baycue.commands.report import page_within
from baycue.keep.place import Place
from baycue.keep.record import DrillPlace, PlanText, PracticeGo
from tests.command_line import Run
from tests.kept_practice import Invented, keep_practice
from tests.kept_swing import PLAN, PROBE, keep, swing_record

TOLD = PracticeGo(DrillPlace(0, 0), "with answers", "full swing")
WIDE, SHORT = 9.0, 1.0
"""Knee past ankle, cm, on either side of what the plan asks."""


def swings(passes: int, fails: int, go: PracticeGo | None) -> list[Invented]:
    knees = [WIDE] * passes + [SHORT] * fails
    return [Invented(knee_cm, 3.0, 3.0, go) for knee_cm in knees]


def knee(place: Place) -> TargetFigures:
    return figures_of(practice_of(place, "Heron"))[0]


@pytest.fixture
def place(tmp_path: Path) -> Place:
    """Two weeks of practice with a silent block each, and three swings outside any block."""
    weeks = [
        [*swings(3, 5, TOLD), *swings(4, 1, PROBE)],
        [*swings(4, 4, TOLD), *swings(3, 2, PROBE), *swings(1, 2, None)],
    ]
    return keep_practice(tmp_path / "kept", weeks)


WORDS = "Probes: 7 of 10, 70 % (40 to 89 %); practice: 8 of 19, 42 % (23 to 64 %)."
"""7 of 10 is .3968 to .8922 in Newcombe 1998, Statistics in Medicine 17:857, table I; 8 of 19 by
Wilson's formula, as statsmodels has it."""


def test_probes_of_all_sessions_stand_against_all_practice(place: Place) -> None:
    figures = knee(place)
    assert (figures.probes.passed, figures.probes.failed) == (7, 3)
    assert (figures.practice.passed, figures.practice.failed) == (8, 11)
    assert retention_words(figures) == WORDS
    assert [s.whole.passed for s in figures.sessions] == [3, 5], "probes are no practice"


def test_page_and_text_say_so(
    place: Place, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert f"<h3>Retention</h3><p>{WORDS}</p>" in page_within(practice_of(place, "Heron"), False)
    said = Run(capsys)("report", "Heron", "--text", "--keep", place.folder)
    assert WORDS in " ".join(said.out.split())


OWN = """\
practice:
  blocks:
    - drills: [{drill: full swing, count: 9}]
    - name: what stays
      drills:
        - drill: full swing
          count: 9
          targets: [{measure: knee past ankle, at: P6, at_least: 6 cm}]
      feedback: silent
"""


def test_a_probe_by_its_drills_own_bound_counts_for_that_bound(tmp_path: Path) -> None:
    place, plan = Place(tmp_path / "kept"), PlanText("heron_knee", PLAN + OWN)
    place.folder.mkdir()
    for number, go in enumerate((TOLD, PROBE), 1):
        keep(place, replace(swing_record(number), plan=plan, go=go))
    practised, probed = figures_of(practice_of(place, "Heron"))
    assert [asked(f.target) for f in (practised, probed)] == [
        "knee past ankle at P6: at least 5 cm",
        "knee past ankle at P6: at least 6 cm",
    ]
    assert [practised.practice.failed, practised.probes.failed] == [1, 0]
    assert [probed.practice.failed, probed.probes.failed] == [0, 1]
