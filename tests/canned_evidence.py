"""Evidence of a swing by a stick golfer whose every joint and checkpoint is known."""

from dataclasses import dataclass, field, replace
from functools import lru_cache

import numpy as np

from baycue.club.reading import Evidence, ShaftReading
from baycue.measures.calibration import KNEE
from baycue.measures.evidence import SwingEvidence
from baycue.measures.scale import address_poses, scale_of
from baycue.plan.stance import Handedness, View
from baycue.pose.sides import stance_in_picture
from baycue.swing.swing import Checkpoint, CheckpointName, Swing
from tests.canned_readings import ns, true_times_s
from tests.canned_swing import BACKSWING_S, CannedSwing, canned_swing
from tests.stick_golfer import (
    FloatArray,
    Pinhole,
    StickGolfer,
    frame_times_s,
    mirrored,
    poses_of,
)

SIGMA_NS = 2_000_000


def true_checkpoints() -> tuple[Checkpoint, ...]:
    """The canned swing's, address included."""
    times = {"address": -BACKSWING_S - 0.1, **true_times_s()}
    found = [Checkpoint(CheckpointName(name), ns(t), SIGMA_NS) for name, t in times.items()]
    return tuple(sorted(found, key=lambda c: c.time_ns))


def exact_shaft(times_s: FloatArray, swing: CannedSwing) -> tuple[ShaftReading, ...]:
    """A right reading for every time counted from the top; its sigma is a degree."""
    return tuple(
        ShaftReading(k, ns(float(t)), float(swing.shaft_deg(t)), 1.0, 0.0, Evidence.PICTURE)
        for k, t in enumerate(times_s)
    )


@dataclass(frozen=True, slots=True)
class Filmed:
    """Who is filmed how.  A left-hander, like a mirrored picture, is the mirror image."""

    golfer: StickGolfer = field(default_factory=StickGolfer)
    camera: Pinhole = field(default_factory=Pinhole)
    handedness: Handedness = Handedness.RIGHT
    mirrored: bool = False
    view: View = View.FACE_ON
    fps: float = 60.0


@lru_cache(maxsize=128)
def evidence_of(filmed: Filmed) -> SwingEvidence:
    """Noise-free evidence with the true checkpoints."""
    stance = stance_in_picture(filmed.handedness, filmed.mirrored)
    times = frame_times_s(filmed.fps, -1.25, true_times_s()["P8"] + 0.05)
    poses = poses_of(times, canned_swing(), filmed.golfer, filmed.camera)
    if not stance.left_leads:
        poses = mirrored(poses, filmed.camera.width_px)
    return SwingEvidence(
        swing=Swing(1, true_checkpoints()),
        poses=poses,
        shaft=exact_shaft(times, canned_swing()),
        stance=stance,
        view=filmed.view,
        stature_m=filmed.golfer.stature_m,
        camera=filmed.camera.known,
    )


def as_drawn(evidence: SwingEvidence, measure: str) -> SwingEvidence:
    """As the pose model draws what ``measure`` measures, from the takeaway on.

    The model's drawing is no mirror image: it sets the lead knee as far to the left as the
    calibration says, whichever way the golfer stands, and through that alone is a mirrored golfer
    seen alike.  At address, where the scale is told, it is left where it is.
    """
    if measure != "knee past ankle":
        return evidence
    left_px = np.zeros((33, 2))
    left_px[evidence.stance.lead.knee, 0] = KNEE.drawn_left_m * scale_of(evidence).px_per_m
    still = address_poses(evidence)
    moved = (replace(p, pixels=p.pixels - left_px) for p in evidence.poses[len(still) :])
    return replace(evidence, poses=(*still, *moved))
