"""The table as a terminal of 80 columns shows it."""

import io
from dataclasses import replace

from rich.console import Console

from baycue.measures.measurement import Measurement, Unit
from baycue.plan.target import Target
from baycue.report.table import swing_table
from baycue.report.words import IN_WORDS, asked_and_margin
from baycue.swing.swing import CheckpointName
from baycue.verdict.judge import judge_target
from tests.scored_swing import answers, scored_swing


def printed(width: int = 80) -> list[str]:
    text = io.StringIO()
    Console(file=text, width=width).print(swing_table(scored_swing()))
    return [line.rstrip() for line in text.getvalue().splitlines()]


def line_with(words: str) -> str:
    (line,) = [line for line in printed() if words in line]
    return line


def test_every_target_has_its_answer_value_and_spread_on_one_line() -> None:
    assert line_with("knee past ankle at P6").split() == (
        ["fail", "knee", "past", "ankle", "at", "P6", "2.1", "cm", "1.0", "cm"]
    )
    assert line_with("head rise").startswith("pass ")
    assert line_with("tempo (watched only)").startswith("too close to call ")


def test_what_was_asked_stands_under_the_target() -> None:
    lines = printed()
    under = lines[lines.index(line_with("knee past ankle at P6")) + 1]
    assert under.strip() == "asked: at least 5.0 cm; 2.9 cm short"


def test_a_target_that_was_not_measured_says_why_and_shows_no_figure() -> None:
    lines = printed()
    line = line_with("knee back")
    assert line.split() == ["not", "measured", "knee", "back"]
    assert "the knee was hidden" in lines[lines.index(line) + 1]


def test_checkpoints_are_told_in_words_and_counted_from_impact() -> None:
    line = line_with("shaft parallel, coming down")
    assert line.startswith("P6 ")
    assert "-" in line
    assert line_with("the club is back at the ball").split()[-4:] == ["+0", "ms", "4", "ms"]


def test_how_often_a_moment_s_give_or_take_holds_is_said() -> None:
    assert "68 times in 100, 2.2 times as much 95 times" in line_with("A moment's give or take")


def test_nothing_is_cut_and_no_line_is_longer_than_the_terminal() -> None:
    lines = printed()
    assert max(map(len, lines)) <= 80
    assert not any("…" in line for line in lines)


def test_every_checkpoint_has_words() -> None:
    assert set(IN_WORDS) == set(CheckpointName)


def test_a_margin_between_two_bounds_names_the_end_it_counts_from() -> None:
    tempo = answers()[2]
    assert asked_and_margin(tempo) == "asked: between 2.50 and 3.50;\n0.11 above the low end"
    over = {"measure": "tempo", "between": ["2.5", "3.5"]}
    measured = tempo.measurement
    assert measured is not None
    judged = judge_target(
        Target.model_validate(over), type(measured)("tempo", 4.0, 0.1, measured.unit)
    )
    assert asked_and_margin(judged) == "asked: between 2.50 and 3.50;\n0.50 over the high end"


def test_a_measure_that_one_camera_cannot_be_trusted_with_says_so() -> None:
    asked = Target.model_validate(
        {"measure": "elbow separation", "at": "P6", "at_most": "30 cm", "watch_only": "true"}
    )
    measured = Measurement("elbow separation", 0.25, 0.03, Unit.METRE)
    scored = scored_swing()
    answered = (*scored.verdict.targets, judge_target(asked, measured))
    text = io.StringIO()
    doubted = replace(scored, verdict=replace(scored.verdict, targets=answered))
    Console(file=text, width=200).print(swing_table(doubted))
    assert "Do not trust elbow separation from one camera: elbows apart" in text.getvalue()
    assert not any("Do not trust" in line for line in printed())
