"""One clip scored: from its path and a plan's text to the bytes that are kept."""

import hashlib
import json
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from baycue.errors import DamagedRecordingError, RecordingError, SceneError
from baycue.folder.clips import sha256_of
from baycue.keep.record import PlanText
from baycue.plan.load import parse_plan
from baycue.plan.target import USUAL_BAND
from baycue.recording import score_recording
from baycue.report.document import ScoreDocument, score_document

FORMAT_VERSION: Literal[1] = 1


@dataclass(frozen=True, slots=True)
class Origin:
    """What a result follows from: the digests of clip and plan, the program's version, and the band
    of targets whose plan gives none.
    """

    clip_sha256: str
    plan_sha256: str
    program: str
    usual_band: float = USUAL_BAND

    @property
    def key(self) -> str:
        """16 hexadecimal digits that change when any of it changes."""
        made_by = (self.program, str(FORMAT_VERSION), f"band {self.usual_band:g}")
        parts = (self.clip_sha256, self.plan_sha256, *made_by)
        return hashlib.sha256("\n".join(parts).encode()).hexdigest()[:16]


class ClipResult(BaseModel):
    """A clip scored, or why it was refused; one of the two is null."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    format: Literal["baycue clip result"] = Field(
        default="baycue clip result", description="what this file is"
    )
    version: Literal[1] = Field(default=FORMAT_VERSION, description="of this format")
    program: str = Field(description="the version of the program that scored")
    clip_sha256: str = Field(description="digest of the clip's bytes")
    plan_sha256: str = Field(description="digest of the plan's text")
    usual_band: float = Field(
        default=1.0, description="band of targets whose plan gives none; 1 in a result without it"
    )
    scores: ScoreDocument | None = Field(description="as `baycue score --json` writes them")
    refused: str | None = Field(description="why the clip could not be scored")

    @property
    def origin(self) -> Origin:
        """What it follows from."""
        return Origin(self.clip_sha256, self.plan_sha256, self.program, self.usual_band)


def origin_of(clip: Path, plan: PlanText) -> Origin:
    """What a result for this clip would follow from; raises OSError if it cannot be read."""
    return Origin(sha256_of(clip), plan.sha256, version("baycue"))


def clip_result(clip: Path, plan: PlanText) -> bytes:
    """Score one clip: the JSON of a ``ClipResult``.

    The same bytes and the same plan give the same result to the byte, in whatever process and
    on whatever machine of one kind.  A clip that cannot be used gives a result that says why.

    Raises PlanError for a faulty plan, and RecordingError if the clip changed meanwhile.
    """
    origin = origin_of(clip, plan)
    scores, refused = _scored(clip, plan)
    if sha256_of(clip) != origin.clip_sha256:
        raise DamagedRecordingError(
            f"{clip.name}: changed while it was scored; is it being copied?"
        )
    result = ClipResult(
        program=origin.program,
        clip_sha256=origin.clip_sha256,
        plan_sha256=origin.plan_sha256,
        usual_band=origin.usual_band,
        scores=scores,
        refused=refused,
    )
    return (json.dumps(result.model_dump(mode="json"), indent=2) + "\n").encode()


def _scored(clip: Path, plan: PlanText) -> tuple[ScoreDocument | None, str | None]:
    checked = parse_plan(plan.text, plan.name)
    try:
        scored = score_recording(clip, checked)
    except (RecordingError, SceneError) as error:
        return None, str(error).replace(str(clip), clip.name).removeprefix(f"{clip.name}: ")
    return score_document(clip.name, plan.name, checked, scored), None
