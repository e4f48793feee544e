"""Have the program measure everything on one draw, blind, and keep what it said and what is true.

A plan holds a few targets and the catalogue many more measures, so each measure is taken straight
from the evidence that the program gathered for such a plan.
"""

from dataclasses import dataclass
from pathlib import Path

from pydantic import TypeAdapter

from baycue.bench.coach import plan_for
from baycue.bench.population import Draw
from baycue.bench.questions import Question, questions
from baycue.bench.record import Stated
from baycue.bench.staging import staged
from baycue.bench.take import clip_of
from baycue.bench.truths import true_answer
from baycue.errors import SceneError
from baycue.measures.catalogue import measure_named
from baycue.measures.evidence import SwingEvidence
from baycue.measures.measurement import NotMeasuredError
from baycue.recording import score_recording


@dataclass(frozen=True, slots=True)
class MeasuredSwing:
    """One swing: ``said`` and ``true`` by question's title; what was not measured is missing."""

    draw: Draw
    said: dict[str, Stated]
    true: dict[str, float]
    refused: str | None = None


_ADAPTER = TypeAdapter(MeasuredSwing)


def to_line(swing: MeasuredSwing) -> str:
    """One line of JSON."""
    return _ADAPTER.dump_json(swing).decode()


def from_line(line: str) -> MeasuredSwing:
    """The swing of a line; raises ValueError if it is none."""
    return _ADAPTER.validate_json(line)


def measure_take(draw: Draw, clips: Path | None = None) -> MeasuredSwing:
    """One swing, from draw to answers; the clip is kept in ``clips``, else thrown away."""
    stage, asked = staged(draw), questions(draw.camera.view)
    true = {q.title: true_answer(stage.truth, q.measure, q.taken) for q in asked}
    with clip_of(draw, stage, clips) as clip:
        try:
            swings = score_recording(clip, plan_for(draw)).swings
        except SceneError as error:
            return MeasuredSwing(draw, {}, true, str(error))
    if not swings:
        return MeasuredSwing(draw, {}, true, "no swing was found")
    return MeasuredSwing(draw, answered(swings[0].evidence, asked), true)


def answered(evidence: SwingEvidence, asked: tuple[Question, ...]) -> dict[str, Stated]:
    """What the program says to each question, by title; it is given the evidence and no more."""
    said = {question.title: _stated(question, evidence) for question in asked}
    return {title: stated for title, stated in said.items() if stated}


def _stated(question: Question, evidence: SwingEvidence) -> Stated | None:
    measure = measure_named(question.measure)
    assert measure is not None, "questions are of the catalogue"
    try:
        found = measure.take(evidence, question.when)
    except NotMeasuredError:
        return None
    return Stated(found.value, found.sigma)
