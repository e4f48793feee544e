"""The angle between lead forearm and shaft: the wrist angle, held or thrown away."""

import numpy as np

from baycue.measures.evidence import SwingEvidence
from baycue.measures.limbs import club_curve, limb_deg
from baycue.measures.marks import Line, Mark, Role, Sight
from baycue.measures.measure import Measure, Way
from baycue.measures.measurement import Unit
from baycue.measures.sketch import opening
from baycue.measures.track import Smooth, Sum, Track
from baycue.plan.stance import View

_SIGMA_DEG, _TURNED_DEG = 4.0, 12.0
"""Set on the bench's development swings (seed 2)."""


def _track(evidence: SwingEvidence) -> Track:
    lead = evidence.stance.lead
    forearm = limb_deg(evidence, lead.elbow, lead.wrist, zero_deg=0.0)
    course = Sum(((1.0, forearm), (-1.0, Smooth(club_curve(evidence)))))
    return Track(course, each_sigma=_SIGMA_DEG, turned_sigma=_TURNED_DEG)


def _draw(sight: Sight) -> tuple[Mark, ...]:
    if sight.shaft is None:
        return ()
    lead = sight.stance.lead
    wrist = sight.pose.pixel(lead.wrist)
    forearm = wrist - sight.pose.pixel(lead.elbow)
    angle = np.radians(sight.shaft.angle_deg)
    along = np.array([np.sin(angle) * sight.stance.toward_target, np.cos(angle)])
    arm = Line(np.array([wrist - forearm, wrist]), Role.FROM)
    return (arm, *opening(sight, wrist, forearm, 0.3 * sight.body_px * along))


MEASURE = Measure(
    name="wrist angle",
    definition="The angle from shaft to lead forearm as seen face-on, 0 when they are in line; "
    "from P5 to P6 it tells the lag lost.",
    positive="the club trails the forearm",
    unit=Unit.DEGREE,
    views=frozenset({View.FACE_ON}),
    track=_track,
    draw=_draw,
    way=Way.CLOCKWISE,
)
