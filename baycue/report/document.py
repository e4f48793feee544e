"""The scored recording as one document: what ``--json`` writes.

``schema()`` is its JSON Schema.  Times are seconds from the recording's first frame,
values in the unit named beside them.
"""

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from baycue.errors import OutputError
from baycue.spine import ScoredSwing
from baycue.verdict.verdict import TargetVerdict

FORMAT_VERSION: Literal[1] = 1


class _Part(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class CheckpointEntry(_Part):
    """A checkpoint of a swing."""

    name: str = Field(description="address, takeaway, P2, P3, top, P5, P6, impact, P8 or finish")
    time_s: float
    sigma_s: float = Field(description="one-sigma of the time")


class TargetEntry(_Part):
    """A target's answer."""

    target: str
    outcome: Literal["pass", "fail", "too close to call"]
    watch_only: bool
    measure: str | None = Field(description="null when the target could not be measured")
    value: float | None
    sigma: float | None
    unit: Literal["m", "ratio", "deg"] | None
    margin: float | None = Field(description="in the same unit, positive on the passing side")
    reason: str


class SwingEntry(_Part):
    """One swing."""

    number: int
    outcome: Literal["pass", "fail", "too close to call"]
    reason: str
    decided_after_impact_s: float | None = Field(
        description="newest picture that the verdict used, after impact"
    )
    shaft_seen_share: float = Field(description="frames whose own picture showed the shaft, 0 to 1")
    checkpoints: tuple[CheckpointEntry, ...]
    targets: tuple[TargetEntry, ...]


class ScoreDocument(_Part):
    """A recording scored against a plan."""

    format: Literal["baycue score"] = "baycue score"
    version: Literal[1] = FORMAT_VERSION
    recording: str
    plan: str
    student: str
    frames: int
    dropped_frames: int
    fps: float = Field(description="measured from the stamps")
    swings: tuple[SwingEntry, ...]


def schema() -> dict[str, Any]:
    """The JSON Schema of ``ScoreDocument``."""
    return ScoreDocument.model_json_schema()


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
        raise OutputError(
            f"{path}: exists already and is not overwritten; name another file"
        ) from None
    except OSError as error:
        raise OutputError(f"{path}: cannot be written ({error.strerror})") from None
