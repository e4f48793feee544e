"""A plan file in memory that can be saved, broken and taken away."""

from dataclasses import dataclass
from pathlib import Path

from baycue.errors import PlanError
from baycue.plan.watch import Stamp

FIVE = (
    "student: Heron\nhandedness: right\nstature: 178 cm\nview: face-on\ntargets:\n"
    "  - {measure: knee past ankle, at: P6, at_least: 5 cm}\n"
)
SIX, BROKEN = FIVE.replace("5 cm", "6 cm"), FIVE.replace("5 cm", "5")
PATH = Path("plans") / "heron.yaml"


@dataclass
class HeldFile:
    """A file in memory; ``text`` None: it is gone."""

    said: str | None = FIVE
    saves: int = 0
    reads: int = 0

    def save(self, text: str | None) -> None:
        self.said, self.saves = text, self.saves + 1

    def stamp(self) -> Stamp | None:
        return None if self.said is None else Stamp(self.saves, len(self.said), b"")

    def text(self) -> str:
        self.reads += 1
        if self.said is None:
            raise PlanError(f"{PATH}: cannot be read: No such file or directory")
        return self.said
