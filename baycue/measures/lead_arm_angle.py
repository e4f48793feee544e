"""How far the lead arm has come down past parallel to the ground."""

import numpy as np

from baycue.measures.evidence import SwingEvidence
from baycue.measures.limbs import limb_deg
from baycue.measures.marks import Mark, Sight
from baycue.measures.measure import Measure, Way
from baycue.measures.measurement import Unit
from baycue.measures.sketch import opening
from baycue.measures.track import Track
from baycue.plan.stance import View

_PARALLEL_DEG = -90.0
_SIGMA_DEG, _TURNED_DEG = 3.0, 19.0
"""Set on the bench's development swings (seed 2)."""


def _track(evidence: SwingEvidence) -> Track:
    lead = evidence.stance.lead
    course = limb_deg(evidence, lead.shoulder, lead.wrist, _PARALLEL_DEG)
    return Track(
        course,
        each_sigma=_SIGMA_DEG,
        shared_sigma=evidence.level.sigma_deg,
        turned_sigma=_TURNED_DEG,
    )


def _draw(sight: Sight) -> tuple[Mark, ...]:
    lead = sight.stance.lead
    shoulder, wrist = sight.pose.pixel(lead.shoulder), sight.pose.pixel(lead.wrist)
    level = np.array([-float(np.linalg.norm(wrist - shoulder)) * sight.stance.toward_target, 0.0])
    return opening(sight, shoulder, level, wrist - shoulder)


MEASURE = Measure(
    name="lead arm angle",
    definition="How far the lead arm, shoulder to wrist as seen face-on, is past parallel to the "
    "ground on the trail side.",
    positive="below parallel; 90 deg hangs straight down",
    unit=Unit.DEGREE,
    views=frozenset({View.FACE_ON}),
    track=_track,
    draw=_draw,
    way=Way.ANTICLOCKWISE,
)
