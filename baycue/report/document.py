"""The scored recording as one document: what ``--json`` writes.

``schema()`` is its JSON Schema.  Times are seconds from the recording's first frame,
values in the unit named beside them.
"""

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from baycue.errors import ExistsError, OutputError
from baycue.plan.plan import Plan
from baycue.recording import ScoredRecording
from baycue.spine import ScoredSwing
from baycue.swing.swing import SIGMAS_95
from baycue.verdict.verdict import TargetVerdict

FORMAT_VERSION: Literal[1] = 1


class _Part(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


Answer = Literal["pass", "fail", "too close to call"]


class CheckpointEntry(_Part):
    """A checkpoint of a swing."""

    name: str = Field(description="address, takeaway, P2, P3, top, P5, P6, impact, P8 or finish")
    time_s: float = Field(description="seconds from the recording's first frame, between frames")
    sigma_s: float = Field(
        ge=0, description=f"one-sigma of the time, seconds; {SIGMAS_95} of it hold 95 times in 100"
    )


class TargetEntry(_Part):
    """A target's answer."""

    target: str = Field(description="the coach's name for it, or one made from the plan")
    outcome: Answer = Field(
        description="too close to call also where nothing was measured; then measure is null"
    )
    watch_only: bool = Field(description="reported, but does not decide the swing")
    measure: str | None = Field(description="null when the target could not be measured")
    value: float | None = Field(description="what was measured, in unit")
    sigma: float | None = Field(description="one-sigma of value, in unit")
    unit: Literal["m", "ratio", "deg", "s"] | None = Field(
        description="the unit of all figures here"
    )
    margin: float | None = Field(
        description="distance to the nearest bound, moved out by the plan's tolerance, in unit; "
        "positive on the passing side"
    )
    reason: str = Field(description="the answer as a sentence, in the coach's own unit")


class SwingEntry(_Part):
    """One swing."""

    number: int = Field(ge=1, description="counted from 1 in the recording")
    outcome: Answer = Field(
        description="pass if every deciding target passes, fail if any fails, else too close"
    )
    reason: str = Field(description="which targets decided it")
    decided_after_impact_s: float | None = Field(
        description="newest picture that the verdict used, seconds after impact"
    )
    shaft_seen_share: float = Field(
        ge=0, le=1, description="frames whose own picture showed the shaft, 0 to 1"
    )
    checkpoints: tuple[CheckpointEntry, ...] = Field(description="in order of time")
    targets: tuple[TargetEntry, ...] = Field(description="in the plan's order")


class ScoreDocument(_Part):
    """A recording scored against a plan."""

    format: Literal["baycue score"] = Field(default="baycue score", description="what this file is")
    version: Literal[1] = Field(
        default=FORMAT_VERSION,
        description="goes up when a program that reads this must change",
    )
    recording: str = Field(description="the recording's file name")
    plan: str = Field(description="the plan's file name")
    student: str = Field(description="as the plan has it")
    frames: int = Field(ge=0, description="frames looked at")
    dropped_frames: int = Field(
        ge=0, description="frames left out because their time stamp did not increase"
    )
    fps: float = Field(gt=0, description="frames a second, measured from the time stamps")
    swings: tuple[SwingEntry, ...] = Field(description="in order of time; may be empty")


def schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of ``ScoreDocument`` as written: every key is there."""
    return ScoreDocument.model_json_schema(mode="serialization")


def score_document(
    recording: str, plan_name: str, plan: Plan, scored: ScoredRecording
) -> ScoreDocument:
    """The scored recording as one document; names are file names."""
    return ScoreDocument(
        recording=recording,
        plan=plan_name,
        student=plan.student,
        frames=scored.frames,
        dropped_frames=scored.dropped_frames,
        fps=scored.fps,
        swings=entries(scored.swings),
    )


def swing_entry(scored: ScoredSwing) -> SwingEntry:
    """One scored swing as written down."""
    swing, verdict = scored.evidence.swing, scored.verdict
    return SwingEntry(
        number=swing.number,
        outcome=verdict.outcome.value,
        reason=verdict.reason,
        decided_after_impact_s=scored.decided_after_impact_s,
        shaft_seen_share=scored.evidence.shaft_seen_share,
        checkpoints=tuple(
            CheckpointEntry(name=c.name.value, time_s=c.time_ns * 1e-9, sigma_s=c.sigma_ns * 1e-9)
            for c in swing.checkpoints
        ),
        targets=tuple(target_entry(t) for t in verdict.targets),
    )


def target_entry(answer: TargetVerdict) -> TargetEntry:
    """One target's answer as written down."""
    measured = answer.measurement
    return TargetEntry(
        target=answer.target_name,
        outcome=answer.outcome.value,
        watch_only=answer.watch_only,
        measure=measured.measure if measured else None,
        value=measured.value if measured else None,
        sigma=measured.sigma if measured else None,
        unit=measured.unit.value if measured else None,
        margin=answer.margin,
        reason=answer.reason,
    )


def entries(swings: Sequence[ScoredSwing]) -> tuple[SwingEntry, ...]:
    """All swings as written down."""
    return tuple(swing_entry(s) for s in swings)


def write_document(document: ScoreDocument, path: Path) -> None:
    """Write the document as JSON; never over a file that exists (OutputError)."""
    text = json.dumps(document.model_dump(mode="json"), indent=2) + "\n"
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        raise ExistsError(
            f"{path}: exists already and is not overwritten; name another file"
        ) from None
    except OSError as error:
        raise OutputError(f"{path}: cannot be written ({error.strerror})") from None
