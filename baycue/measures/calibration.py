"""How the pose model's landmarks stand to true joints: the constants of ``calibration.yaml``.

They come from synthetic swings (``baycue bench-calibrate``).  Real golfers were not measured:
the model may stand differently to theirs.
"""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml
from pydantic import TypeAdapter

_FILE = Path(__file__).with_name("calibration.yaml")


@dataclass(frozen=True, slots=True)
class KneeCalibration:
    """True knee past ankle = ``gain`` * (seen + sin(bearing) * ``depth_share`` * depth) + offset.

    The model pulls the knee toward the ankle, so the gain is above 1, and draws it too near
    the camera, so only a share of its depth counts.  ``drawn_left_m``: so far to the left in the
    picture does it draw the knee from the ankle, whoever it sees: it does not draw a mirror image
    as it draws the picture.  ``sigma_m``: what remains beside the other parts of the sigma.
    """

    gain: float
    offset_m: float
    depth_share: float
    drawn_left_m: float
    sigma_m: float


@dataclass(frozen=True, slots=True)
class HeadCalibration:
    """True change of the head's height = ``gain`` * that of the ears, for a nod lifts them too.

    ``too_high_share``: by what share of stature the model draws the ears of a golfer seen face-on
    too high at each of some checkpoints, against address, where the head is bent over the ball.
    ``nearer_share``: by what share of stature it draws them nearer the camera than at address,
    which a camera below the head shows as height.  ``sigma_m``: what remains beside the other
    parts of the sigma.
    """

    gain: float
    sigma_m: float
    too_high_share: dict[str, float]
    nearer_share: dict[str, float]


@dataclass(frozen=True, slots=True)
class BearingCalibration:
    """The camera's bearing, deg, as a weighted sum of what is seen of it; see ``bearing``.

    ``place``: by where in the picture the golfer stands.  ``heels``, ``shoulders``, ``hips``:
    by how the model turns these lines.  ``sigma_deg``: what remains.
    """

    constant_deg: float
    place: float
    heels: float
    shoulders: float
    hips: float
    sigma_deg: float


@dataclass(frozen=True, slots=True)
class Calibration:
    """All constants, and how they were made."""

    made: dict[str, str]
    bearing: BearingCalibration
    knee: KneeCalibration
    head: HeadCalibration


def _read() -> Calibration:
    known: Any = yaml.safe_load(_FILE.read_text(encoding="utf-8"))
    return TypeAdapter(Calibration).validate_python(known)


CALIBRATION = _read()
KNEE, HEAD, BEARING = CALIBRATION.knee, CALIBRATION.head, CALIBRATION.bearing
