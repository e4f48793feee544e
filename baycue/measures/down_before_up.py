"""How long before impact the pelvis is lowest: down first, then up."""

import numpy as np

from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.marks import Mark, Sight
from baycue.measures.measure import Measure
from baycue.measures.measurement import Unit
from baycue.measures.places import BODY_PACE, height_m
from baycue.measures.scale import scale_of
from baycue.measures.sketch import raised
from baycue.measures.take import Taken
from baycue.measures.track import frames
from baycue.measures.when import checkpoint_of
from baycue.plan.stance import View
from baycue.pose.sides import LEFT, RIGHT
from baycue.swing.swing import CheckpointName

_HIPS = (LEFT.hip, RIGHT.hip)
_STEP_S = 0.005
_SIGMA_M = 0.004
"""How far the hips drift on the pose model within a tenth of a second; assumed."""


def _whole(evidence: SwingEvidence) -> Taken:
    """The pelvis is lowest here or there as likely as its height and the noise allow."""
    top = checkpoint_of(evidence, CheckpointName.TOP)
    impact = checkpoint_of(evidence, CheckpointName.IMPACT)
    heights = height_m(evidence, scale_of(evidence), *_HIPS)
    course = frames(evidence, heights, 0.07, 2, BODY_PACE)
    times = np.arange(top.time_ns * 1e-9, impact.time_ns * 1e-9, _STEP_S)
    fits = course.over(times)
    noise = float(np.hypot(np.median(fits.sigmas), _SIGMA_M))
    lowest_s, spread_s = _lowest_s(times, fits.values, noise)
    sigma = np.linalg.norm([spread_s, impact.sigma_ns * 1e-9, _STEP_S])
    return Taken(impact.time_ns * 1e-9 - lowest_s, float(sigma))


def _lowest_s(times: FloatArray, heights: FloatArray, noise: float) -> tuple[float, float]:
    """Mean and spread of when the lowest of noisy heights is."""
    weights = np.exp(-((heights - heights.min()) ** 2) / (4 * noise**2))
    weights /= weights.sum()
    mean = float(weights @ times)
    return mean, float(np.sqrt(weights @ (times - mean) ** 2))


def _draw(sight: Sight) -> tuple[Mark, ...]:
    return raised(sight, *_HIPS)


MEASURE = Measure(
    name="down before up",
    definition="How long before impact the middle of both hips is lowest, between top and impact.",
    positive="always; near 0 it is still going down at impact, as long as the downswing it never "
    "went down",
    unit=Unit.SECOND,
    views=frozenset({View.FACE_ON, View.DOWN_THE_LINE}),
    whole=_whole,
    draw=_draw,
)
