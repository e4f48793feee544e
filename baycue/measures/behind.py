"""What is told of the camera's place down the line: the constants of ``calibration_behind.yaml``.

They come from synthetic swings (``baycue bench-calibrate --view down-the-line``).  Real golfers
were not measured.
"""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import yaml
from pydantic import TypeAdapter

from baycue.measures.bearing import STANCE_SIGMA_DEG, Bearing
from baycue.measures.evidence import SwingEvidence
from baycue.measures.scale import Scale, address_poses, scale_of

_FILE = Path(__file__).with_name("calibration_behind.yaml")


@dataclass(frozen=True, slots=True)
class BehindCalibration:
    """Constants of the view from behind, and how they were made.

    Bearing = ``constant_deg`` + ``ankles_deg`` * how far the lead ankle stands toward the ball
    past the trail ankle in the picture, in statures; ``bearing_sigma_deg`` remains.  Hands out =
    ``gain`` * seen across + ``along_share`` * sin(bearing) * how far back they are;
    ``hands_sigma_m`` remains beside the bearing's part.
    """

    made: dict[str, str]
    constant_deg: float
    ankles_deg: float
    bearing_sigma_deg: float
    gain: float
    along_share: float
    hands_sigma_m: float


def _read() -> BehindCalibration:
    known: Any = yaml.safe_load(_FILE.read_text(encoding="utf-8"))
    return TypeAdapter(BehindCalibration).validate_python(known)


BEHIND = _read()


def bearing_from_behind(evidence: SwingEvidence) -> Bearing:
    """How far round from the hands' line the camera stands, taking the golfer to stand square.

    Positive: it stands further out, on the ball's side.  The line of the ankles, seen end on,
    opens as the camera goes round it.
    """
    deg = BEHIND.constant_deg + BEHIND.ankles_deg * ankles_apart(evidence, scale_of(evidence))
    return Bearing(deg, float(np.hypot(BEHIND.bearing_sigma_deg, STANCE_SIGMA_DEG)))


def ankles_apart(evidence: SwingEvidence, scale: Scale) -> float:
    """At address, the lead ankle toward the ball past the trail ankle, seen across, in statures."""
    lead, trail = evidence.stance.lead.ankle, evidence.stance.trail.ankle
    apart_px = [p.pixel(lead)[0] - p.pixel(trail)[0] for p in address_poses(evidence)]
    toward = evidence.stance.toward_target
    return float(np.median(apart_px)) * toward / scale.px_per_m / evidence.stature_m
