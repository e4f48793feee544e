"""How far the shaft leans, the handle ahead of the head, as at impact."""

import numpy as np

from baycue.measures.butt import butt_seen_px
from baycue.measures.evidence import SwingEvidence
from baycue.measures.limbs import club_curve
from baycue.measures.marks import Mark, Sight
from baycue.measures.measure import Measure, Way
from baycue.measures.measurement import Unit
from baycue.measures.sketch import opening
from baycue.measures.track import Smooth, Track
from baycue.plan.stance import View
from baycue.swing.curve import Curve
from baycue.swing.swing import CheckpointName

_SIGMA_DEG, _TURNED_DEG = 3.0, 4.0
"""Set on the bench's development swings (seed 2)."""

_TOLD_DEG = {
    CheckpointName.P2: 1.5,
    CheckpointName.P6: 1.5,
    CheckpointName.IMPACT: 5.0,
    CheckpointName.P8: 1.5,
}
"""How surely the shaft's angle is known where it tells the checkpoint: parallel to the ground,
or pointing at the ball; as ``swing.checkpoints`` has it."""


def _track(evidence: SwingEvidence) -> Track:
    club = club_curve(evidence)
    lean = Curve(club.times_s, -club.values, -club.rates, club.sigmas)
    return Track(
        Smooth(lean),
        each_sigma=_SIGMA_DEG,
        shared_sigma=evidence.level.sigma_deg,
        turned_sigma=_TURNED_DEG,
        told_by=_TOLD_DEG,
    )


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
    way=Way.CLOCKWISE,
)
