"""Plots of the records, as PNG; matplotlib is imported only here."""

import io
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from baycue.bench.coach import KNEE
from baycue.bench.figures import MEASURES, TIMES, Quantity
from baycue.bench.record import Record
from baycue.bench.statistics import within_sigmas
from baycue.plan.stance import Handedness

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

Read = Callable[[Record], float]

_BLUE, _GREY = "#2060a0", "#767676"
_P6 = next(q for q in TIMES if q.name == "P6")
_KNEE = next(q for q in MEASURES if q.name == KNEE)


def plots(records: Sequence[Record]) -> dict[str, bytes]:
    """PNG by caption.  Raises ImportError without matplotlib (it comes with mediapipe)."""
    return {
        "P6 against frame rate": _png(_by_fps(records)),
        "P6 against shutter": _png(_by_shutter(records)),
        "Knee against yaw": _png(_by_turn(records, "yaw", lambda r: r.draw.camera.yaw_deg)),
        "Knee against roll": _png(_by_turn(records, "roll", lambda r: r.draw.camera.roll_deg)),
        "Knee, stated against true": _png(_stated_against_true(records)),
        "Do the stated sigmas hold?": _png(_reliability(records)),
    }


def _axes(width_in: float = 6.0) -> "tuple[Figure, Axes]":
    from matplotlib.figure import Figure

    figure = Figure(figsize=(width_in, 4.0), layout="constrained")
    axes = figure.add_subplot()
    axes.grid(color="#dddddd")
    axes.set_axisbelow(True)
    return figure, axes


def _png(figure: "Figure") -> bytes:
    file = io.BytesIO()
    figure.savefig(file, format="png", dpi=110)
    return file.getvalue()


def _known(records: Sequence[Record], quantity: Quantity, read: Read) -> tuple[Any, Any]:
    pairs = [(read(r), quantity.error(r)) for r in records]
    known = [(x, error) for x, error in pairs if error is not None]
    return np.array([x for x, _ in known]), np.array([error for _, error in known])


def _by_fps(records: Sequence[Record]) -> "Figure":
    figure, axes = _axes()
    fps, errors = _known(records, _P6, lambda r: r.draw.fps)
    rates = sorted(set(fps))
    axes.boxplot([errors[fps == rate] for rate in rates], showfliers=True)
    axes.set_xticks(range(1, len(rates) + 1), [f"{rate:g}" for rate in rates])
    _error_axis(axes, _P6, "frames a second")
    return figure


def _by_shutter(records: Sequence[Record]) -> "Figure":
    figure, axes = _axes()
    axes.plot(*_known(records, _P6, lambda r: 1 / r.draw.shutter_s), ".", color=_BLUE)
    axes.set_xscale("log")
    _error_axis(axes, _P6, "shutter, 1/s")
    return figure


def _by_turn(records: Sequence[Record], turn: str, turned_deg: Read) -> "Figure":
    """Turns of a left-hander's camera with the other sign: to the target is to its left."""
    figure, axes = _axes()

    def to_target(record: Record) -> float:
        right = record.draw.camera.handedness is Handedness.RIGHT
        return turned_deg(record) if right else -turned_deg(record)

    axes.plot(*_known(records, _KNEE, to_target), ".", color=_BLUE)
    _error_axis(axes, _KNEE, f"camera {turn}, deg, + to the target")
    return figure


def _error_axis(axes: "Axes", quantity: Quantity, across: str) -> None:
    """Even near zero and logarithmic beyond, so that one wild error hides no others."""
    axes.axhline(0, color=_GREY, linewidth=1)
    axes.set_yscale("symlog", linthresh=20.0 if quantity is _KNEE else 5.0)
    axes.yaxis.set_major_formatter("{x:g}")
    axes.set(xlabel=across, ylabel=f"{quantity.name}, stated less true, {quantity.unit}")


def _stated_against_true(records: Sequence[Record]) -> "Figure":
    figure, axes = _axes()
    true, errors = _known(records, _KNEE, lambda r: _KNEE.true(r) * _KNEE.per_unit)
    axes.plot(true, true + errors, ".", color=_BLUE)
    axes.plot([-90, 110], [-90, 110], color=_GREY, linewidth=1)
    axes.set(xlabel="true, mm", ylabel="stated, mm")
    return figure


def _reliability(records: Sequence[Record]) -> "Figure":
    """For every interval the program may state: how often the truth lies in it."""
    figure, axes = _axes()
    stated = np.linspace(0.02, 0.98, 49)
    for quantity in (_P6, *MEASURES):
        sizes = _sizes_in_sigmas(records, quantity)
        if len(sizes):
            held = [np.mean(sizes <= within_sigmas(s, quantity.freedom)) for s in stated]
            axes.plot(100 * stated, 100 * np.array(held), label=quantity.name)
    axes.plot([0, 100], [0, 100], color=_GREY, linewidth=1)
    axes.set(xlabel="stated interval, %", ylabel="truth within it, %")
    axes.legend(fontsize=8)
    return figure


def _sizes_in_sigmas(records: Sequence[Record], quantity: Quantity) -> Any:
    pairs = [(quantity.error(r), quantity.sigma(r)) for r in records]
    return np.array([abs(error) / sigma for error, sigma in pairs if error is not None and sigma])
