"""What is kept of one swing, beside its film."""

import hashlib
from dataclasses import dataclass

from baycue.club.reading import ShaftReading
from baycue.pose.pose import Pose
from baycue.spine import ScoredSwing
from baycue.swing.swing import Checkpoint, CheckpointName


@dataclass(frozen=True, slots=True)
class PlanText:
    """A plan as it was: what its file was called, and every word of it."""

    name: str
    text: str

    @property
    def sha256(self) -> str:
        """What tells one version of a plan from another."""
        return hashlib.sha256(self.text.encode()).hexdigest()


@dataclass(frozen=True, slots=True)
class DrillPlace:
    """A drill of the plan's practice section: its block's place and its own in it, from 0."""

    block: int
    drill: int


@dataclass(frozen=True, slots=True)
class PracticeGo:
    """Which go of a laid-out session a swing was; ``place``: of its drill.

    ``block`` and ``drill``: the block's title and the drill's name.  ``probe``: whether the block
    was silent, to see what stays when nothing is told.
    """

    place: DrillPlace
    block: str
    drill: str
    probe: bool = False

    @property
    def words(self) -> str:
        """``block 2, at the ball: full swing, silent probe``."""
        probe = ", silent probe" if self.probe else ""
        drill = "" if self.drill == self.block else f": {self.drill}"
        return f"block {self.place.block + 1}, {self.block}{drill}{probe}"


@dataclass(frozen=True, slots=True)
class Film:
    """The clip beside the sidecar.

    ``stamps_ns``: the true stamp of every picture in it, on the clock of the evidence; the first
    is the clip's time 0.  ``nbytes`` and ``crc32`` (of the whole file, as zlib counts it) tell
    whether it is still as it was written.
    """

    file: str
    codec: str
    width_px: int
    height_px: int
    stamps_ns: tuple[int, ...]
    nbytes: int
    crc32: int


@dataclass(frozen=True, slots=True)
class Later:
    """What was seen after the verdict was given; it changed no verdict.

    Poses and shaft as a level camera would have seen them, like those of the evidence.
    """

    checkpoints: tuple[Checkpoint, ...] = ()
    poses: tuple[Pose, ...] = ()
    shaft: tuple[ShaftReading, ...] = ()


@dataclass(frozen=True, slots=True)
class SwingRecord:
    """One swing: who, when, against what, all that was found, and the answer given.

    ``at_utc``: when it was told, ISO 8601.  ``scored``: None for a swing that could not be
    judged; ``unscorable`` then says why.  ``film``: None if there is none; ``no_film`` then says
    why.  ``software_ms``: from the impact frame's stamp to the verdict.  ``drill``: by whose own
    targets it was judged; None for the plan's.  ``go``: which go of a laid-out session it was;
    None outside one, for a swing that did not count as a go, and for one kept before this was.
    """

    student: str
    session: str
    number: int
    at_utc: str
    program: str
    plan: PlanText
    scored: ScoredSwing | None = None
    unscorable: str = ""
    later: Later = Later()
    film: Film | None = None
    no_film: str = ""
    software_ms: float | None = None
    drill: DrillPlace | None = None
    go: PracticeGo | None = None

    def checkpoint(self, name: CheckpointName) -> Checkpoint | None:
        """A checkpoint found before or after the verdict; None if it was not found."""
        if self.scored is None:
            return None
        after = next((c for c in self.later.checkpoints if c.name is name), None)
        return self.scored.evidence.swing.at(name) or after
