"""How far the hands are from the upper centre: the radius of their path."""

import numpy as np

from baycue.measures.evidence import SwingEvidence
from baycue.measures.marks import Dot, Line, Mark, Role, Sight
from baycue.measures.measure import Measure, Way
from baycue.measures.measurement import Unit
from baycue.measures.scale import scale_of
from baycue.measures.sketch import middle_px
from baycue.measures.track import Track, frames
from baycue.plan.stance import View
from baycue.pose.sides import LEFT, RIGHT

_SHOULDERS, _WRISTS = (LEFT.shoulder, RIGHT.shoulder), (LEFT.wrist, RIGHT.wrist)
_SIGMA_M, _TURNED_M = 0.04, 0.07
"""Set on the bench's development swings (seed 2)."""


def _track(evidence: SwingEvidence) -> Track:
    scale = scale_of(evidence)
    out_px = evidence.track_px(*_WRISTS) - evidence.track_px(*_SHOULDERS)
    course = frames(evidence, np.linalg.norm(out_px, axis=1) / scale.px_per_m, 0.05, 2)
    return Track(course, each_sigma=_SIGMA_M, sigma_share=scale.sigma_share, turned_sigma=_TURNED_M)


def _draw(sight: Sight) -> tuple[Mark, ...]:
    centre, hands = middle_px(sight, *_SHOULDERS), middle_px(sight, *_WRISTS)
    return (
        Dot(centre, Role.FROM),
        Line(np.array([centre, hands]), Role.MEASURED),
        Dot(hands, Role.MEASURED),
    )


MEASURE = Measure(
    name="hand path radius",
    definition="How far the middle of both wrists is from the middle of both shoulders as seen "
    "face-on; its largest value between top and P6 tells a wide arc on the way down.",
    positive="always; larger is wider",
    unit=Unit.METRE,
    views=frozenset({View.FACE_ON}),
    track=_track,
    draw=_draw,
    way=Way.OUT,
)
