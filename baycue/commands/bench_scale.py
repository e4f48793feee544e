"""The bench of the scale alone: still golfers, no swings."""

from rich.console import Console
from rich.table import Table

from baycue.bench.scale import ScaleFigures, ScaleTold, figures, scale_told
from baycue.commands.progress import progress_bar


def run_bench_scale(golfers: int, seed: int, console: Console) -> None:
    """Take the golfers one by one and print each way's figures."""
    told: list[ScaleTold] = []
    with progress_bar(console) as bar:
        for number in bar.track(range(golfers), description="golfers"):
            told += scale_told(seed, number)
    console.print(_table(figures(told)), highlight=False)


def _table(rows: list[ScaleFigures]) -> Table:
    table = Table("scale by", "found", "error as used", "its mean", "in sigmas", box=None)
    for heading in ("ruler alone", "its mean", "yaw error", "in sigmas"):
        table.add_column(heading, justify="right")
    for row in rows:
        table.add_row(
            row.by.value,
            f"{row.found} of {row.draws}",
            f"{row.used_rms:.1%}",
            f"{row.used_mean:+.1%}",
            f"{row.sigmas_rms:.2f}",
            *_of_ruler(row),
        )
    return table


def _of_ruler(row: ScaleFigures) -> tuple[str, ...]:
    if not row.found:
        return ("", "", "", "")
    return (
        f"{row.alone_rms:.1%}",
        f"{row.alone_mean:+.1%}",
        f"{row.yaw_rms_deg:.1f} deg",
        f"{row.yaw_sigmas_rms:.2f}",
    )
