"""Swings to keep: the stick golfer's, with invented names and times."""

from dataclasses import replace
from pathlib import Path

from baycue.keep.entries import add_session, add_swing, sidecar_of
from baycue.keep.folders import SessionFacts
from baycue.keep.log import SwingLog
from baycue.keep.place import Place
from baycue.keep.record import DrillPlace, Film, Later, PlanText, PracticeGo, SwingRecord
from baycue.keep.sidecar import packed
from baycue.keep.whole import write_whole
from baycue.spine import ScoredSwing
from baycue.swing.swing import Checkpoint, CheckpointName
from tests.scored_swing import scored_swing

PROBE = PracticeGo(DrillPlace(1, 0), "what stays", "full swing", probe=True)
DATA = Path(__file__).parent / "data"
PLAN = """\
student: Heron
handedness: right
stature: 178 cm
view: face-on
targets:
  - measure: knee past ankle
    at: P6
    at_least: 5 cm
"""


def numbered(number: int) -> ScoredSwing:
    """The canned swing under another number."""
    scored = scored_swing()
    swing = replace(scored.evidence.swing, number=number)
    return replace(
        scored,
        evidence=replace(scored.evidence, swing=swing),
        verdict=replace(scored.verdict, swing_number=number),
    )


def swing_record(number: int = 1, student: str = "Heron") -> SwingRecord:
    """A judged swing without a film."""
    scored = numbered(number)
    finish = Checkpoint(CheckpointName.FINISH, scored.decided_ns + 900_000_000, 200_000_000)
    return SwingRecord(
        student=student,
        session="2026-11-26_1430",
        number=number,
        at_utc="2026-11-26T14:31:00.000Z",
        program="0.1.0",
        plan=PlanText("heron_knee", PLAN.replace("Heron", student)),
        scored=scored,
        later=Later(checkpoints=(finish,)),
        no_film="not filmed",
        software_ms=412.5,
    )


def with_film(record: SwingRecord) -> SwingRecord:
    """The record of a swing whose film is told of."""
    film = Film("swing_001.mov", "mjpeg", 1280, 720, (5_000_000_123, 5_016_000_001), 1234, 99)
    return replace(record, film=film, no_film="")


def session_facts(student: str = "Heron", name: str = "2026-11-26_1430") -> SessionFacts:
    """A session's facts; its folder need not be there."""
    place = Place(Path("anywhere"))
    folder = place.student(student).relative_to(place.folder) / name
    return SessionFacts(student, folder.as_posix(), "camera 0", "2026-11-26T14:30:00.000Z")


def keep(place: Place, record: SwingRecord, facts: SessionFacts | None = None) -> Path:
    """Put a swing into a place, log and sidecar, as a session would."""
    facts = facts or session_facts(record.student)
    sidecar = place.inside(sidecar_of(facts, record.number))
    sidecar.parent.mkdir(parents=True, exist_ok=True)
    write_whole(sidecar, packed(record))
    with SwingLog(place.log, create=True) as log:
        add_session(log, facts)
        add_swing(log, facts, record)
    return sidecar
