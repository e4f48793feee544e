"""The plan a coach would write for a drawn golfer, and what is true of what it asks."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from baycue.bench.population import Draw
from baycue.measures.catalogue import measure_named
from baycue.measures.measurement import Unit
from baycue.plan.plan import Plan
from baycue.plan.stance import View
from baycue.synthetic.truth import TrueSwing


@dataclass(frozen=True, slots=True)
class Asked:
    """Something the plan asks.

    ``target``: as a plan writes it, less its bound, which does not change what is measured.
    ``truth``: the true value.  ``bounds``: range that coaches' bounds are drawn from.
    ``clear``: a true margin beyond which an answer should be called.
    """

    name: str
    unit: Unit
    target: dict[str, Any]
    truth: Callable[[TrueSwing], float]
    bounds: tuple[float, float]
    at_least: bool
    clear: float = 0.02

    def seen_from(self, view: View) -> bool:
        """Whether a camera there can tell it."""
        measure = measure_named(self.target["measure"])
        return measure is not None and view in measure.views

    @property
    def sign(self) -> str:
        """The unit as a plan writes it; a ratio has none."""
        return "" if self.unit is Unit.RATIO else self.unit.value


ASKED = (
    Asked(
        "knee past ankle at P6",
        Unit.METRE,
        {"measure": "knee past ankle", "at": "P6"},
        lambda true: true.knee_past_ankle_m["P6"],
        (-0.06, 0.10),
        at_least=True,
    ),
    Asked(
        "head rise, address to impact",
        Unit.METRE,
        {"measure": "head rise", "from": "address", "to": "impact"},
        lambda true: true.head_rise_m["impact"],
        (-0.02, 0.07),
        at_least=False,
    ),
    Asked(
        "head rise, address to P6",
        Unit.METRE,
        {"measure": "head rise", "from": "address", "to": "P6"},
        lambda true: true.head_rise_m["P6"],
        (-0.04, 0.05),
        at_least=False,
    ),
    Asked(
        "tempo",
        Unit.RATIO,
        {"measure": "tempo"},
        lambda true: true.tempo,
        (2.4, 4.0),
        at_least=True,
        clear=0.5,
    ),
)
"""As many as a plan holds."""

KNEE, HEAD = ASKED[0].name, ASKED[1].name


def plan_for(draw: Draw) -> Plan:
    """What the coach knows and no more: stature about right, the field of view perhaps."""
    camera = {"mirrored": draw.mirrored}
    known = {} if draw.stated_fov_deg is None else {"field_of_view": f"{draw.stated_fov_deg} deg"}
    return Plan.model_validate(
        {
            "student": f"swing {draw.number}",
            "handedness": draw.camera.handedness.value,
            "stature": f"{draw.stated_stature_m:.2f} m",
            "view": draw.camera.view.value,
            "camera": {**camera, **known},
            "targets": [
                {**asked.target, "name": asked.name, "at_least": f"0 {asked.sign}".strip()}
                for asked in ASKED
                if asked.seen_from(draw.camera.view)
            ],
        }
    )
