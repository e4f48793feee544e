"""How far the shaft leans, the handle ahead of the head, as at impact."""

import numpy as np

from baycue.measures.butt import butt_seen_px
from baycue.measures.evidence import SwingEvidence
from baycue.measures.limbs import club_curve
from baycue.measures.marks import Mark, Sight
from baycue.measures.measure import Measure
from baycue.measures.measurement import Unit
from baycue.measures.sketch import opening
from baycue.measures.track import Smooth, Track
from baycue.plan.stance import View
from baycue.swing.curve import Curve

_SIGMA_DEG = 4.0
"""Set on the bench's development swings (seed 2)."""


def _track(evidence: SwingEvidence) -> Track:
    club = club_curve(evidence)
    lean = Curve(club.times_s, -club.values, -club.rates, club.sigmas)
    return Track(Smooth(lean), each_sigma=_SIGMA_DEG, shared_sigma=evidence.level.sigma_deg)


def _draw(sight: Sight) -> tuple[Mark, ...]:
    butt = butt_seen_px(sight)
    if butt is None or sight.shaft is None:
        return ()
    angle, reach = np.radians(sight.shaft.angle_deg), 0.4 * sight.body_px
    along = np.array([np.sin(angle) * sight.stance.toward_target, np.cos(angle)])
    return opening(sight, butt, np.array([0.0, reach]), reach * along)


MEASURE = Measure(
    name="handle lean",
    definition="How far the shaft leans from upright as seen face-on, the handle ahead of the "
    "club head.",
    positive="the handle is nearer the target than the head",
    unit=Unit.DEGREE,
    views=frozenset({View.FACE_ON}),
    track=_track,
    draw=_draw,
)
