"""Stand-ins for the scoring of a clip that other processes can import."""

import os
from pathlib import Path

from baycue.errors import RecordingError
from baycue.folder.clip_result import ClipResult, origin_of
from baycue.folder.clips import Clip
from baycue.keep.record import PlanText
from baycue.report.document import ScoreDocument, entries
from tests.command_line import PLAN
from tests.scored_swing import scored_swing

PLAN_TEXT = PlanText(PLAN.name, PLAN.read_text(encoding="utf-8"))


def make_clips(folder: Path, **contents: str) -> tuple[Clip, ...]:
    """Files that stand for clips; what ``canned`` makes of one follows from its contents."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, content in contents.items():
        (folder / f"{name}.mp4").write_text(content)
    return tuple(Clip(f"{name}.mp4", folder / f"{name}.mp4") for name in contents)


def canned(clip: Clip, plan: PlanText) -> bytes:
    """A failed swing, or as the file says: damaged, copying, fault (a bug), crash."""
    content = clip.path.read_text()
    if content == "crash":
        os._exit(9)
    if content == "copying":
        raise RecordingError(f"{clip.name}: changed while it was scored")
    if content == "fault":
        raise ZeroDivisionError("a bug\nand more")
    return _result(clip, plan, content == "damaged").model_dump_json().encode()


def _result(clip: Clip, plan: PlanText, damaged: bool) -> ClipResult:
    origin = origin_of(clip.path, plan)
    return ClipResult(
        program=origin.program,
        clip_sha256=origin.clip_sha256,
        plan_sha256=origin.plan_sha256,
        usual_band=origin.usual_band,
        scores=None if damaged else _scores(clip.path.name, plan),
        refused="damaged or cut off" if damaged else None,
    )


def _scores(name: str, plan: PlanText) -> ScoreDocument:
    return ScoreDocument(
        recording=name,
        plan=plan.name,
        student="Heron",
        frames=60,
        dropped_frames=0,
        fps=30.0,
        swings=entries([scored_swing()]),
    )
