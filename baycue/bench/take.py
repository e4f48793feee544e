"""Render one draw, let the program score it blind, and keep what it said."""

import shutil
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from baycue.bench.coach import plan_for
from baycue.bench.population import Draw
from baycue.bench.record import Record, Seen, Stated
from baycue.bench.render import render
from baycue.bench.staging import Staged, staged
from baycue.errors import SceneError
from baycue.plan.plan import Plan
from baycue.plan.stance import View
from baycue.recording import score_recording
from baycue.spine import ScoredSwing


@dataclass(frozen=True, slots=True)
class _Answer:
    swings: tuple[ScoredSwing, ...]
    error: str | None


def take(draw: Draw, clips: Path | None = None) -> Record:
    """One swing, from draw to record; the clip is kept in ``clips``, else thrown away."""
    stage, started = staged(draw), time.perf_counter()
    with clip_of(draw, stage, clips) as clip:
        rendered = time.perf_counter()
        answer = _answer(clip, plan_for(draw))
    scored = time.perf_counter()
    return Record(
        draw=draw,
        true=stage.truth,
        swings_found=len(answer.swings),
        seen=_seen(answer.swings[0]) if answer.swings else None,
        error=answer.error,
        render_s=round(rendered - started, 2),
        score_s=round(scored - rendered, 2),
    )


@contextmanager
def clip_of(draw: Draw, stage: Staged, clips: Path | None) -> Iterator[Path]:
    """The clip of a draw: the one kept in ``clips`` if there is one, else rendered now.

    Nothing checks that a kept clip was drawn by the drawing code as it is: empty the folder
    whenever that changes.
    """
    with tempfile.TemporaryDirectory(prefix="bench-") as folder:
        kept = (clips or Path(folder)) / _name(draw)
        if not kept.exists():
            kept.parent.mkdir(parents=True, exist_ok=True)
            new = Path(folder) / "new.mp4"
            render(stage, new)
            shutil.move(new, kept)
        yield kept


def _name(draw: Draw) -> str:
    behind = "" if draw.camera.view is View.FACE_ON else "-behind"
    return f"{draw.seed}-{draw.number:03d}{behind}.mp4"


def _answer(clip: Path, plan: Plan) -> _Answer:
    """The program's answer; all it gets is the clip and the coach's plan."""
    try:
        return _Answer(score_recording(clip, plan).swings, None)
    except SceneError as error:
        return _Answer((), str(error))


def _seen(scored: ScoredSwing) -> Seen:
    evidence = scored.evidence
    return Seen(
        checkpoints_s={
            c.name.value: Stated(c.time_ns * 1e-9, c.sigma_ns * 1e-9)
            for c in evidence.swing.checkpoints
        },
        measures={
            answer.target_name: Stated(answer.measurement.value, answer.measurement.sigma)
            for answer in scored.verdict.targets
            if answer.measurement is not None
        },
        shaft_seen_share=evidence.shaft_seen_share,
        decided_after_impact_s=scored.decided_after_impact_s,
    )
