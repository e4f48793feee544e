"""Some weeks of invented practice, kept as the live bay keeps it; nobody swung any of it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path
from shutil import copyfile

from baycue.capture.recording import RecordingSource
from baycue.keep.kept_session import KeptSession
from baycue.keep.place import Place
from baycue.keep.record import Film, PlanText, PracticeGo, SwingRecord
from baycue.measures.measurement import Measurement, Unit
from baycue.plan.load import parse_plan
from baycue.spine import ScoredSwing
from baycue.verdict.judge import judge_swing, judge_target
from tests.command_line import PLAN
from tests.scored_swing import scored_swing

PLAN_TEXT = PlanText(PLAN.name, PLAN.read_text(encoding="utf-8"))
FIRST_DAY = datetime(2026, 11, 3, 17, 0, tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Invented:
    """What one swing measured: knee past ankle and head rise, cm, and the tempo.

    ``go``: which go of a laid-out session it was.
    """

    knee_cm: float
    head_cm: float
    tempo: float
    go: PracticeGo | None = None


@dataclass(frozen=True, slots=True)
class Filmed:
    """A scored swing and the recording that it was scored from."""

    scored: ScoredSwing
    film: Path


def keep_practice(
    folder: Path, weeks: Sequence[Sequence[Invented]], filmed: Filmed | None = None
) -> Place:
    """One session a week with these swings, in a log of their own."""
    place = Place(folder)
    for number, swings in enumerate(weeks):
        now = FIRST_DAY + timedelta(weeks=number)
        session = KeptSession(place, "Heron", "a recording", partial(_same, now))
        for each, invented in enumerate(swings, 1):
            session.keep(session.stamped(_record(session, each, invented, filmed)))
        session.close()
    return place


def _same(now: datetime) -> datetime:
    return now


def _record(
    session: KeptSession, number: int, invented: Invented, filmed: Filmed | None
) -> SwingRecord:
    scored = _answered(filmed.scored if filmed else scored_swing(), number, invented)
    film = _filmed(session.film_path(number), filmed.film) if filmed else None
    return SwingRecord(
        "Heron", "", number, "", "0.1.0", PLAN_TEXT, scored, film=film, go=invented.go
    )


def _answered(scored: ScoredSwing, number: int, invented: Invented) -> ScoredSwing:
    """The swing with these figures in place of what was measured."""
    values = (invented.knee_cm / 100, invented.head_cm / 100, invented.tempo)
    sigmas, units = (0.006, 0.005, 0.15), (Unit.METRE, Unit.METRE, Unit.RATIO)
    targets = parse_plan(PLAN_TEXT.text, PLAN_TEXT.name).targets
    answers = [
        judge_target(target, Measurement(target.measure, value, sigma, unit))
        for target, value, sigma, unit in zip(targets, values, sigmas, units, strict=True)
    ]
    return replace(scored, verdict=judge_swing(number, answers))


def _filmed(path: Path, recording: Path) -> Film:
    copyfile(recording, path)
    with RecordingSource(path) as source:
        stamps = tuple(frame.stamp_ns for frame in source)
        size = source.width_px, source.height_px
    return Film(path.name, "h264", *size, stamps, path.stat().st_size, 0)
