"""Fit the pose model's calibration anew and write it as the package keeps it."""

from dataclasses import asdict, dataclass
from datetime import date
from functools import partial
from pathlib import Path

import yaml
from rich.console import Console

from baycue.bench.calibrate import Sighting, Tested, calibrated, sighting
from baycue.bench.population import draw
from baycue.bench.run import taken_in_turn
from baycue.commands.folders import refuse_unusable
from baycue.commands.progress import progress_bar
from baycue.errors import ExistsError, ShortfallError

FEWEST = 20


@dataclass(frozen=True, slots=True)
class CalibrateRequest:
    """Which swings to fit on, where the constants go, and where clips are kept."""

    swings: int
    seed: int
    out: Path
    workers: int
    clips: Path | None = None


def run_bench_calibrate(request: CalibrateRequest, console: Console) -> Tested:
    """Look at every swing, fit, and write ``calibration.yaml``; never over an older one."""
    refuse_unusable(request.out)
    file = request.out / "calibration.yaml"
    if file.exists():
        raise ExistsError(f"{file}: exists already and is not overwritten")
    seen = _sightings(request, console)
    if len(seen) < FEWEST:
        raise ShortfallError(f"only {len(seen)} swings were seen; a fit wants {FEWEST} or more")
    tested = calibrated(seen, made_by(request, len(seen)))
    request.out.mkdir(parents=True, exist_ok=True)
    document = asdict(tested.calibration)
    file.write_text(yaml.safe_dump(document, sort_keys=False), encoding="utf-8")
    console.print(
        f"{len(seen)} swings. On the half not fitted on: bearing {tested.bearing_deg:.1f} deg, "
        f"knee {1e3 * tested.knee_m:.1f} mm, head {1e3 * tested.head_m:.1f} mm RMS, "
        f"wild ones left out. Written to {file}; put it in baycue/measures to use it.",
        soft_wrap=True,
    )
    return tested


def _sightings(request: CalibrateRequest, console: Console) -> list[Sighting]:
    draws = [draw(request.seed, number) for number in range(request.swings)]
    found = []
    with progress_bar(console) as bar:
        task = bar.add_task("swings", total=len(draws))
        look = partial(sighting, clips=request.clips)
        for _, seen in taken_in_turn(draws, request.workers, look):
            found += [seen] if seen else []
            bar.advance(task)
    return sorted(found, key=lambda s: s.number)


def made_by(request: CalibrateRequest, seen: int) -> dict[str, str]:
    """How the constants came about, for the file."""
    return {
        "by": f"baycue bench-calibrate --seed {request.seed} --swings {request.swings}",
        "date": date.today().isoformat(),
        "swings": str(seen),
        "fitted_on": "the even-numbered swings",
        "sigmas_from": "the odd-numbered swings",
        "what": "synthetic golfers; no real golfer was measured",
    }
