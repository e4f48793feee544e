"""What the pose model's own smoothing costs: the detector told three clocks, against truth."""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

from rich.console import Console

from baycue.bench.detector_figures import DetectorFigures, detector_figures
from baycue.bench.detector_table import ALL, detector_tables
from baycue.bench.detector_tracks import Tracks, read_tracks, tracks_of, write_tracks
from baycue.bench.population import Draw, draw
from baycue.bench.staging import staged
from baycue.commands.folders import refuse_unusable
from baycue.commands.progress import progress_bar

FPS_IN_TURN = (30.0, 60.0)


@dataclass(frozen=True, slots=True)
class DetectorRequest:
    """How many swings of which seed, frame rates in turn, and where tracks are kept."""

    swings: int
    seed: int
    out: Path

    def draws(self) -> list[Draw]:
        """The swings, one frame rate after the other."""
        rates = [FPS_IN_TURN[n % len(FPS_IN_TURN)] for n in range(self.swings)]
        return [draw(self.seed, n, {fps: 1.0}) for n, fps in enumerate(rates)]

    def tracks_file(self, drawn: Draw) -> Path:
        """Where the tracks of a swing are kept."""
        return self.out / f"detector_seed{self.seed}_swing{drawn.number}.npz"


def run_bench_detector(request: DetectorRequest, console: Console) -> dict[str, DetectorFigures]:
    """Follow what is missing, print, and write the figures; kept tracks are used again."""
    refuse_unusable(request.out)
    draws = request.draws()
    with progress_bar(console) as bar:
        swings = [_tracks(request, drawn) for drawn in bar.track(draws, description="swings")]
    figures = by_rate(swings)
    console.print(detector_tables(figures), highlight=False)
    document = {
        "made": f"{request.swings} swings of seed {request.seed}; {date.today().isoformat()}",
        **{rate: asdict(of) for rate, of in figures.items()},
    }
    file = request.out / "detector.json"
    file.write_text(json.dumps(document, indent=1), encoding="utf-8")
    console.print(f"Figures written to {file}", soft_wrap=True)
    return figures


def by_rate(swings: Sequence[Tracks]) -> dict[str, DetectorFigures]:
    """Figures of all swings and of each frame rate."""
    rates = sorted({tracks.fps for tracks in swings})
    each = {f"{fps:g} fps": [t for t in swings if t.fps == fps] for fps in rates}
    return {name: detector_figures(some) for name, some in {ALL: list(swings), **each}.items()}


def _tracks(request: DetectorRequest, drawn: Draw) -> Tracks:
    file = request.tracks_file(drawn)
    if not file.exists():
        with TemporaryDirectory(prefix="bench-detector-") as folder:
            write_tracks(file, tracks_of(drawn, staged(drawn), Path(folder) / "swing.mp4"))
    return read_tracks(file)
