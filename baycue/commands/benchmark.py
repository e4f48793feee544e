"""How fast the whole spine is, and how that compares with the pose model alone."""

import os
import platform
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from rich.console import Console
from rich.table import Table

from baycue.capture.frame import Frame
from baycue.capture.recording import RecordingSource
from baycue.plan.load import load_plan
from baycue.plan.plan import Plan
from baycue.pose.landmarker import MediaPipePose
from baycue.recording import score_frames

_ROUNDS = 3


@dataclass(frozen=True, slots=True)
class Speed:
    """Frames a second of both, best of the rounds, and the spine's peak memory, MB."""

    frames: int
    bare_pose_fps: float
    spine_fps: float
    peak_mb: float | None

    @property
    def ratio(self) -> float:
        """The spine's speed as a share of the pose call's."""
        return self.spine_fps / self.bare_pose_fps


def run_benchmark(recording: Path, plan_file: Path, console: Console) -> None:
    """Measure and print."""
    plan = load_plan(plan_file)
    with console.status(f"measuring on {recording.name}, {_ROUNDS} rounds"):
        speed = measure(recording, plan)
    peak = "not measured on this system" if speed.peak_mb is None else f"{speed.peak_mb:.0f} MB"
    table = Table("what", "measured")
    table.add_row("machine", f"{os.cpu_count()} cores, {platform.machine()}, {platform.system()}")
    table.add_row("frames", str(speed.frames))
    table.add_row("bare pose call, decoded frames", f"{speed.bare_pose_fps:.1f} frames a second")
    table.add_row("whole spine, file to verdict", f"{speed.spine_fps:.1f} frames a second")
    table.add_row("ratio", f"{speed.ratio:.2f}")
    table.add_row("peak memory of the spine", peak)
    console.print(table)


def measure(recording: Path, plan: Plan) -> Speed:
    """Both speeds on the same frames; rounds alternate so that neither has the quieter time."""
    spine = [_timed(lambda: _spine(recording, plan))]
    peak = _peak_mb()
    frames = _decoded(recording)
    bare = [_timed(lambda: _bare_pose(frames))]
    for _ in range(_ROUNDS - 1):
        spine.append(_timed(lambda: _spine(recording, plan)))
        bare.append(_timed(lambda: _bare_pose(frames)))
    return Speed(len(frames), len(frames) / min(bare), len(frames) / min(spine), peak)


def bare_pose_fps(recording: Path) -> float:
    """Frames a second of the pose model alone, on decoded frames."""
    frames = _decoded(recording)
    return len(frames) / _timed(lambda: _bare_pose(frames))


def _decoded(recording: Path) -> list[Frame]:
    with RecordingSource(recording) as source:
        return list(source)


def _bare_pose(frames: list[Frame]) -> None:
    with MediaPipePose() as estimator:
        for frame in frames:
            estimator.estimate(frame)


def _spine(recording: Path, plan: Plan) -> None:
    with RecordingSource(recording) as source, MediaPipePose() as estimator:
        score_frames(recording.name, source, estimator, plan)


def _timed(work: Callable[[], None]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def _peak_mb() -> float | None:
    """The most memory this process has held; None where the system does not tell."""
    try:
        import resource
    except ImportError:  # Windows
        return None
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    # macOS counts bytes, Linux kilobytes.
    return peak / (1 << 20 if sys.platform == "darwin" else 1 << 10)
