"""The detector's figures as tables for the terminal."""

from collections.abc import Mapping
from math import isnan

from rich.console import Group, RenderableType
from rich.table import Table

from baycue.bench.detector_figures import AxisNoise, DetectorFigures
from baycue.bench.detector_tracks import JOINTS, Clock
from baycue.bench.table import CAUTION


def detector_tables(by_rate: Mapping[str, DetectorFigures]) -> RenderableType:
    """Before and after by frame rate, then each landmark's noise over all swings."""
    every = by_rate[ALL]
    rates = [followed_table(name, figures) for name, figures in by_rate.items() if name != ALL]
    return Group(f"{every.swings} swings. {CAUTION}", *rates, noise_table(every))


ALL = "all frame rates"


def followed_table(rate: str, figures: DetectorFigures) -> Table:
    """Error, lag and jitter of every joint, one clock beside the other."""
    table = Table(
        "joint",
        title=f"{rate}, {figures.swings} swings: MediaPipe told {', '.join(Clock)}",
        caption="error: RMS, top to impact; jitter: one axis, standing still; % of stature",
    )
    for head in ("error, %", "lag, ms", "jitter, %", "frames missed, %"):
        table.add_column(head, justify="right")
    for joint in JOINTS:
        each = [figures.followed[clock][joint] for clock in Clock]
        table.add_row(
            joint.replace("_", " "),
            _side_by_side([f.rms_percent for f in each], 2),
            _side_by_side([f.lag_ms for f in each], 0),
            _side_by_side([f.jitter_percent for f in each], 2),
            _side_by_side([100 * f.missed for f in each], 0),
        )
    return table


def noise_table(figures: DetectorFigures) -> Table:
    """Bias and noise of every joint along either axis, as Baycue runs the detector."""
    table = Table(
        "joint, as Baycue does",
        title="Landmarks less true joints, % of stature: bias, between swings, within a swing",
        caption="x: toward the target; y: up",
    )
    parts = figures.noise[Clock.UNSMOOTHED]
    for part in parts:
        table.add_column(f"{part}, x", justify="right")
        table.add_column(f"{part}, y", justify="right")
    for joint in JOINTS:
        noise = [parts[part][joint] for part in parts]
        cells = [_axis(axis) for each in noise for axis in (each.along, each.up)]
        table.add_row(joint.replace("_", " "), *cells)
    return table


def _axis(noise: AxisNoise) -> str:
    return f"{noise.bias:+.2f}, {noise.between:.2f}, {noise.within:.2f}"


def _side_by_side(values: list[float], digits: int) -> str:
    return " / ".join("-" if isnan(value) else f"{value:.{digits}f}" for value in values)
