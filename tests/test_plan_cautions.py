"""Thresholds finer than the bay can tell: warned of, with what would help."""

import numpy as np
import pytest

from baycue.measures.catalogue import measures
from baycue.measures.figures import Figure
from baycue.plan.cautions import cautions
from baycue.plan.document import Fault
from baycue.plan.load import parse_with_lines
from baycue.plan.resolution import (
    asks_the_same,
    half_width_for_half,
    passes_in_the_middle,
    resolution_of,
)
from baycue.plan.stance import View

FACE_ON, BEHIND = View.FACE_ON, View.DOWN_THE_LINE
KNEE, RISE = "knee past ankle", "head rise"
HEAD = "student: Heron\nhandedness: right\nstature: 178 cm\nview: {view}\n{scale}targets:\n"


def figure(measure: str, asked: str, rms: float, view: View = FACE_ON, **others: object) -> Figure:
    return Figure(measure, view, asked, 100, rms, 0.0, 0.68, 0.95, **others)  # type: ignore[arg-type]


FIGURES = (
    figure(KNEE, "at P6", 0.013, fps=30),
    figure(KNEE, "at P6", 0.008, fps=60),
    figure(KNEE, "at P6", 0.006, fps=120, scale="board"),
    figure(KNEE, "at top", 0.020, fps=30),
    figure(RISE, "address to impact", 0.010),
    figure(RISE, "address to impact", 0.006, BEHIND),
    figure("tempo", "tempo", 0.2),
)


def warned(
    *targets: str,
    fps: int = 30,
    view: View = FACE_ON,
    scale: str = "",
    figures: tuple[Figure, ...] = FIGURES,
) -> list[Fault]:
    rows = "".join(f"  - {{{target}}}\n" for target in targets)
    text = HEAD.format(view=view.value, scale=scale) + rows
    return cautions(*parse_with_lines(text, "plan.yaml"), fps, figures)


def knee(bound: str, at: str = "P6") -> str:
    return f"measure: {KNEE}, at: {at}, {bound}"


def test_a_coarse_plan_gives_no_warning() -> None:
    rise = f"measure: {RISE}, from: address, to: impact, at_most: 4 cm"
    assert warned(knee("at_least: 5 cm, tolerance: 2 cm"), rise, "measure: tempo, at_most: 4") == []


def test_a_tolerance_below_the_error_is_warned_of_by_line_and_key() -> None:
    (found,) = warned(knee("at_least: 5 cm"), knee("at_least: 5 cm, tolerance: 5 mm", "top"))
    assert (found.line, found.key) == (7, "targets[2].tolerance")
    assert found.text.startswith(
        "5 mm is finer than the bay can tell: the bay is off by 2.0 cm (RMS, at top)"
    )


def test_faster_frames_and_a_board_are_said_to_help_if_the_bench_found_so() -> None:
    (found,) = warned(knee("at_least: 5 cm, tolerance: 5 mm"))
    assert found.text.endswith(
        "would help: a wider bound; 120 frames a second and scale by board (0.6 cm); "
        "60 frames a second (0.8 cm)"
    )


def test_another_view_is_said_to_help_if_the_bench_found_so() -> None:
    (found,) = warned(f"measure: {RISE}, at: impact, between: [-1 cm, 1 cm]")
    assert found.text.endswith("a wider bound; the camera down-the-line (0.6 cm)")


def test_what_the_bench_did_not_find_is_only_perhaps() -> None:
    (found,) = warned(knee("at_least: 5 cm, tolerance: 5 mm", "top"))
    assert found.text.endswith(
        "perhaps, not measured apart: 60 frames a second, a shorter shutter, "
        "scale by stick or board"
    )
    (fast,) = warned(
        knee("at_least: 5 cm, tolerance: 5 mm", "top"), fps=60, scale="scale: {by: board}\n"
    )
    assert fast.text.endswith("perhaps, not measured apart: a shorter shutter")


def test_at_the_better_rate_the_same_plan_is_fine() -> None:
    assert warned(knee("at_least: 5 cm, tolerance: 1 cm"), fps=60) == []
    assert len(warned(knee("at_least: 5 cm, tolerance: 1 cm"), fps=30)) == 1


def test_a_range_narrower_than_its_own_band_never_passes() -> None:
    (found,) = warned(knee("between: [4 cm, 6 cm]"))
    assert found.key == "targets[1].between"
    assert "a swing in its very middle is called a pass never" in found.text
    assert "5.1 cm from end to end would make it every other time" in found.text


def test_a_narrow_range_says_how_often_its_middle_passes() -> None:
    """Half width 2 cm, error 1.3 cm, 1.3 sigmas of band: 0.238 sigmas of room, 19 in 100."""
    (found,) = warned(knee("between: [3 cm, 7 cm]"))
    assert "called a pass in 19 of 100 cases" in found.text
    (surer,) = warned(knee("between: [3.5 cm, 6.5 cm], band: 1"))
    assert "called a pass in 12 of 100 cases" in surer.text, "0.154 sigmas of room"
    assert warned(knee("between: [3.5 cm, 6.5 cm], tolerance: 1.5 cm")) == []


def test_a_bound_that_can_hardly_be_told_from_nothing() -> None:
    (found,) = warned(knee("at_least: 5 mm"))
    assert found.text.startswith("5 mm can hardly be told from 0")
    assert warned(knee("at_least: 0 cm")) == []
    assert warned("measure: tempo, at_least: 0.1") == []


def test_a_measure_in_doubt_says_so_whatever_its_figures() -> None:
    doubted = [m for m in measures() if m.doubt and FACE_ON in m.views and not m.whole]
    for measure in doubted:
        unit = {"m": "50 cm", "deg": "60 deg", "s": "500 ms"}[measure.unit.value]
        (found,) = warned(f"measure: {measure.name}, at: P6, at_least: {unit}")
        assert measure.doubt in found.text
        assert found.key == "targets[1].measure"
        assert "watch_only" in found.text
    assert doubted


def test_a_drill_s_own_targets_are_looked_at_too() -> None:
    practice = (
        "practice:\n  blocks:\n    - drills:\n        - drill: full swing\n          count: 3\n"
        f"          targets: [{{{knee('between: [4 cm, 5 cm]')}}}]\n"
    )
    (found,) = warned(knee("at_least: 5 cm"), scale=practice)
    assert (found.line, found.key) == (
        10,
        "practice.blocks[1].drills[1].targets[1].between",
    )


def test_without_figures_nothing_is_claimed() -> None:
    assert warned(knee("between: [4 cm, 4.1 cm]"), figures=()) == []


class TestWhichFigure:
    def of(self, target: str, fps: int = 30, scale: str = "") -> tuple[float, bool] | None:
        text = HEAD.format(view="face-on", scale=scale) + f"  - {{{target}}}\n"
        plan, _ = parse_with_lines(text, "p")
        found = resolution_of(plan.targets[0], plan, fps, FIGURES)
        return None if found is None else (found.error, found.exact)

    def test_the_rate_s_own(self) -> None:
        assert self.of(knee("at_least: 5 cm"), 60) == (0.008, True)

    def test_an_unknown_rate_takes_the_worst(self) -> None:
        assert self.of(knee("at_least: 5 cm"), 50) == (0.013, True)

    def test_the_scale_s_own_comes_before_the_rate(self) -> None:
        assert self.of(knee("at_least: 5 cm"), 30, "scale: {by: board}\n") == (0.006, True)

    def test_another_moment_takes_the_worst_and_says_so(self) -> None:
        assert self.of(knee("at_least: 5 cm", "P5")) == (0.020, False)

    def test_a_name_of_the_coach_s_does_not_hide_the_moment(self) -> None:
        assert self.of(knee("at_least: 5 cm, name: knee over toes")) == (0.013, True)

    def test_counted_from_address_either_wording_fits(self) -> None:
        for when in ("at: impact", "from: address, to: impact"):
            assert self.of(f"measure: {RISE}, {when}, at_most: 4 cm") == (0.010, True)

    def test_the_whole_swing_fits_itself(self) -> None:
        text = HEAD.format(view="face-on", scale="") + "  - {measure: tempo, at_most: 4}\n"
        target = parse_with_lines(text, "p")[0].targets[0]
        assert asks_the_same(FIGURES[-1], target)


def test_how_often_the_middle_passes_is_what_drawing_at_random_shows() -> None:
    rng, count = np.random.default_rng(4), 20_000
    for half, band, error in ((0.02, 1.0, 0.013), (0.05, 1.5, 0.02), (0.01, 1.0, 0.02)):
        drawn = np.abs(rng.normal(0.0, error, count)) <= half - band * error
        share = passes_in_the_middle(half, band, error)
        assert share == pytest.approx(drawn.mean(), abs=4 * 0.5 / count**0.5)


@pytest.mark.parametrize("band", [0.5, 1.0, 2.0])
def test_the_width_advised_passes_every_other_time(band: float) -> None:
    """The quartile of the normal distribution is 0.6745 in every printed table."""
    half = half_width_for_half(band, 0.013)
    assert passes_in_the_middle(half, band, 0.013) == pytest.approx(0.5, abs=1e-4)
