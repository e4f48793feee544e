"""The canned swing's evidence with joints put elsewhere, by hand or by another swing's angles."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from baycue.measures.catalogue import measure_named
from baycue.measures.evidence import SwingEvidence
from baycue.measures.measurement import Measurement
from baycue.measures.scale import scale_of
from baycue.measures.when import When
from baycue.pose.pose import FloatArray, Landmark, Pose
from baycue.swing.swing import Checkpoint, CheckpointName, Swing
from tests.canned_evidence import SIGMA_NS, Filmed, evidence_of, exact_shaft
from tests.canned_readings import ns
from tests.canned_swing import CannedSwing
from tests.stick_golfer import frame_times_s, poses_of

SET_OFF_S = -0.4
"""When the joints move, counted from the top."""


def take(name: str, evidence: SwingEvidence, when: When) -> Measurement:
    """A measure by its name, taken."""
    measure = measure_named(name)
    assert measure is not None
    return measure.take(evidence, when)


def at(name: CheckpointName) -> When:
    """The value at a checkpoint."""
    return When(name, name)


def stepped(
    evidence: SwingEvidence, landmarks: tuple[Landmark, ...], toward_m: float, up_m: float
) -> SwingEvidence:
    """Landmarks so far from where they were, from half-way through the backswing on."""
    px_per_m = scale_of(evidence).px_per_m
    step_px = px_per_m * np.array([toward_m * evidence.stance.toward_target, -up_m])
    return placed(
        evidence, lambda p: {mark: p.pixel(mark) + step_px for mark in landmarks}, ns(SET_OFF_S)
    )


def placed(
    evidence: SwingEvidence,
    places_px: Callable[[Pose], dict[Landmark, FloatArray]],
    since_ns: int = 0,
) -> SwingEvidence:
    """Landmarks put at (2,) places of each picture, from a moment on."""

    def put(pose: Pose) -> Pose:
        if pose.stamp_ns < since_ns:
            return pose
        pixels = pose.pixels.copy()
        for landmark, place in places_px(pose).items():
            pixels[landmark] = place
        return replace(pose, pixels=pixels)

    return replace(evidence, poses=tuple(put(p) for p in evidence.poses))


def held(arm_deg: float, shaft_deg: float) -> CannedSwing:
    """A golfer who keeps still."""
    times = np.arange(-0.5, 0.5, 0.01)
    return CannedSwing(times, np.full_like(times, arm_deg), np.full_like(times, shaft_deg))


def swung(swing: CannedSwing, checkpoints_s: dict[str, float], fps: float = 120.0) -> SwingEvidence:
    """The evidence of another swing told by two angles, with the checkpoints given."""
    times = frame_times_s(fps, float(swing.times_s[0]), float(swing.times_s[-1]))
    found = tuple(
        Checkpoint(CheckpointName(name), ns(t), SIGMA_NS) for name, t in checkpoints_s.items()
    )
    return replace(
        evidence_of(Filmed()),
        swing=Swing(1, found),
        poses=poses_of(times, swing),
        shaft=exact_shaft(times, swing),
    )
