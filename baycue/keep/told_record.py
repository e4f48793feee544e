"""A record of a swing that has just been told."""

from collections.abc import Sequence
from importlib.metadata import PackageNotFoundError, version

from baycue.bay.level import levelled
from baycue.keep.keeper import ToldSwing
from baycue.keep.record import Later, SwingRecord
from baycue.pose.pose import Pose
from baycue.spine import ScoredSwing


def record_of(told: ToldSwing) -> SwingRecord:
    """All that is known at the verdict; session and time of day are still to be filled in."""
    swing = told.swing
    scored = swing if isinstance(swing, ScoredSwing) else None
    return SwingRecord(
        student=told.student,
        session="",
        number=told.number,
        at_utc="",
        program=program_version(),
        plan=told.plan,
        scored=scored,
        unscorable="" if isinstance(swing, ScoredSwing) else swing.reason,
        software_ms=(told.scored_ns - told.impact_ns) / 1e6 if scored else None,
        drill=told.drill,
        go=told.go,
    )


def later_than(judged: ScoredSwing, latest: ScoredSwing, poses: Sequence[Pose]) -> Later:
    """What became known after the verdict; ``poses``: the golfer's since then, as filmed."""
    known = {c.name for c in judged.evidence.swing.checkpoints}
    after = tuple(c for c in latest.evidence.swing.checkpoints if c.name not in known)
    camera, level = judged.evidence.camera, judged.evidence.level
    upright = tuple(levelled(p, level, camera.width_px, camera.height_px) for p in poses)
    return Later(after, upright)


def program_version() -> str:
    """This program's version, as far as it knows it."""
    try:
        return version("baycue")
    except PackageNotFoundError:
        return "unknown"
