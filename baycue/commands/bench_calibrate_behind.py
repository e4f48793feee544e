"""Fit the constants of the view from behind anew and write them as the package keeps them."""

from dataclasses import asdict
from functools import partial

import yaml
from rich.console import Console

from baycue.bench.calibrate_behind import (
    SeenFromBehind,
    TestedBehind,
    calibrated_behind,
    seen_from_behind,
)
from baycue.bench.population import draw
from baycue.bench.run import taken_in_turn
from baycue.commands.bench_calibrate import FEWEST, CalibrateRequest, made_by
from baycue.commands.folders import refuse_unusable
from baycue.commands.progress import progress_bar
from baycue.errors import ExistsError, ShortfallError
from baycue.plan.stance import View


def run_bench_calibrate_behind(request: CalibrateRequest, console: Console) -> TestedBehind:
    """Look at every swing, fit, and write ``calibration_behind.yaml``; never over an older one."""
    refuse_unusable(request.out)
    file = request.out / "calibration_behind.yaml"
    if file.exists():
        raise ExistsError(f"{file}: exists already and is not overwritten")
    seen = _seen(request, console)
    if len(seen) < FEWEST:
        raise ShortfallError(f"only {len(seen)} swings were seen; a fit wants {FEWEST} or more")
    made = made_by(request, len(seen))
    tested = calibrated_behind(seen, {**made, "by": f"{made['by']} --view down-the-line"})
    request.out.mkdir(parents=True, exist_ok=True)
    file.write_text(yaml.safe_dump(asdict(tested.calibration), sort_keys=False), encoding="utf-8")
    console.print(
        f"{len(seen)} swings. On the half not fitted on: bearing {tested.bearing_deg:.1f} deg, "
        f"hands {1e3 * tested.hands_m:.1f} mm RMS with the bearing known. Written to {file}; put "
        "it in baycue/measures to use it.",
        soft_wrap=True,
    )
    return tested


def _seen(request: CalibrateRequest, console: Console) -> list[SeenFromBehind]:
    draws = [draw(request.seed, n, view=View.DOWN_THE_LINE) for n in range(request.swings)]
    found = []
    with progress_bar(console) as bar:
        task = bar.add_task("swings", total=len(draws))
        look = partial(seen_from_behind, clips=request.clips)
        for _, seen in taken_in_turn(draws, request.workers, look):
            found += [seen] if seen else []
            bar.advance(task)
    return sorted(found, key=lambda s: s.number)
