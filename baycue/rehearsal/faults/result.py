"""What came of a fault, and its file."""

import json
from dataclasses import asdict, dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class FaultResult:
    """``saw``: what the golfer was told meanwhile.  ``told_s``: from the fault to its being told,
    None where verdicts went on.  ``recovery_s``: from the fault's end to the next verdict, None if
    there was none.  ``lost``: in words.  ``badly``: why it ended badly; empty if it did not.
    ``begun``: the time of day; ``lasted_s``: all of it, with the session's start and end.
    """

    name: str
    done: str
    saw: str
    told_s: float | None
    recovery_s: float | None
    swings: int
    lost: str
    badly: str
    begun: str
    lasted_s: float


def write_result(folder: Path, result: FaultResult) -> None:
    """Keep it, in place of an older one of the same fault."""
    folder.mkdir(parents=True, exist_ok=True)
    partial = folder / f"{result.name}.json.partial"
    partial.write_text(json.dumps(asdict(result), indent=2) + "\n", encoding="utf-8")
    partial.replace(folder / f"{result.name}.json")


def read_result(folder: Path, name: str) -> FaultResult | None:
    """The one that is kept; None if there is none, or it is of another version."""
    try:
        return FaultResult(**json.loads((folder / f"{name}.json").read_text(encoding="utf-8")))
    except (OSError, ValueError, TypeError):
        return None
