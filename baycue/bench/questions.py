"""What the bench asks of every measure: when it is taken, as coaches would."""

from dataclasses import dataclass

from baycue.measures.catalogue import measure_named, measures
from baycue.measures.measure import Measure
from baycue.measures.when import Extreme, When
from baycue.plan.stance import View
from baycue.plan.target import say_target
from baycue.swing.swing import CheckpointName
from baycue.synthetic.true_measures import TRUE_READINGS
from baycue.synthetic.truth import TRUE_WHOLES

_ADDRESS, _P2, _TOP = CheckpointName.ADDRESS, CheckpointName.P2, CheckpointName.TOP
_P5, _P6, _IMPACT = CheckpointName.P5, CheckpointName.P6, CheckpointName.IMPACT


@dataclass(frozen=True, slots=True)
class Question:
    """One measure, taken so."""

    measure: str
    when: When

    @property
    def title(self) -> str:
        """As a target's title says it."""
        return say_target(self.measure, self.when)

    @property
    def taken(self) -> When:
        """``when`` with what the measure is counted from."""
        measure = measure_named(self.measure)
        assert measure is not None, "questions are of the catalogue"
        return measure.asked(self.when)


def _at(name: CheckpointName) -> When:
    return When(name, name)


_COMING_DOWN = When(_TOP, _IMPACT, Extreme.FURTHEST)
_USUAL = (_at(_P6), _at(_IMPACT))
"""What is asked of a measure that has no row below."""
_ASKED: dict[str, tuple[When, ...]] = {
    "knee past ankle": (_at(_P6), When(_TOP, _IMPACT, Extreme.LARGEST), When(_TOP, _P6)),
    "knee travel": (When(_TOP, _P6),),
    "head rise": (_at(_P6), _at(_IMPACT), When(_ADDRESS, _IMPACT, Extreme.LARGEST)),
    "head sway": (_at(_TOP), _at(_P6), When(_ADDRESS, _IMPACT, Extreme.FURTHEST)),
    "pelvis height": (_at(_P6), When(_TOP, _P6), When(_TOP, _IMPACT, Extreme.LEAST)),
    "lead arm angle": (_at(_P6),),
    "wrist angle": (_at(_P6), When(_P5, _P6)),
    "butt to buckle": (_at(_P6),),
    "butt to trail thigh": (_at(_P6),),
    "elbow separation": (_at(_P6), _at(_IMPACT), When(_P5, _IMPACT, Extreme.LARGEST)),
    "hand path radius": (_at(_P6), When(_TOP, _P6, Extreme.LARGEST)),
    "handle lean": (_at(_IMPACT),),
    "lead heel height": (_at(_TOP), _COMING_DOWN),
    "hand path out": (
        _at(_P2),
        _at(_TOP),
        When(_ADDRESS, _TOP, Extreme.LARGEST),
        When(_ADDRESS, _TOP, Extreme.LEAST),
        _at(_P6),
    ),
}


WITH_TRUTH = {*TRUE_READINGS, *TRUE_WHOLES}
"""A measure not among them is still offered; its error is "not measured yet"."""


def questions(view: View) -> tuple[Question, ...]:
    """Every measure that the view can show and whose truth is known, in the catalogue's order."""
    shown = [m for m in measures() if view in m.views and m.name in WITH_TRUTH]
    return tuple(Question(m.name, when) for m in shown for when in _whens(m))


def _whens(measure: Measure) -> tuple[When, ...]:
    return (When(),) if measure.whole else _ASKED.get(measure.name, _USUAL)
