"""The gap between the trail elbow and the golfer's side."""

from baycue.measures.evidence import SwingEvidence
from baycue.measures.limbs import beside_line_px
from baycue.measures.marks import Mark, Sight
from baycue.measures.measure import Measure, Way
from baycue.measures.measurement import Unit
from baycue.measures.scale import scale_of
from baycue.measures.sketch import gap
from baycue.measures.track import Track, frames
from baycue.plan.stance import View

_SIGMA_M, _TURNED_M = 0.02, 0.11
"""Set on the bench's development swings (seed 2)."""


def _track(evidence: SwingEvidence) -> Track:
    scale, trail = scale_of(evidence), evidence.stance.trail
    shoulder, hip = evidence.track_px(trail.shoulder), evidence.track_px(trail.hip)
    gaps = beside_line_px(evidence.track_px(trail.elbow), shoulder, hip) / scale.px_per_m
    course = frames(evidence, gaps, 0.05, 2)
    return Track(course, each_sigma=_SIGMA_M, sigma_share=scale.sigma_share, turned_sigma=_TURNED_M)


def _draw(sight: Sight) -> tuple[Mark, ...]:
    trail = sight.stance.trail
    shoulder, hip = sight.pose.pixel(trail.shoulder), sight.pose.pixel(trail.hip)
    elbow = sight.pose.pixel(trail.elbow)
    return gap(elbow, shoulder, hip)


MEASURE = Measure(
    name="trail elbow to side",
    definition="How far the trail elbow is from the line through trail shoulder and trail hip as "
    "seen face-on.",
    positive="always; smaller is tighter",
    unit=Unit.METRE,
    views=frozenset({View.FACE_ON}),
    track=_track,
    draw=_draw,
    way=Way.OUT,
    doubt="an elbow in front of the body or behind it looks close to the side",
)
