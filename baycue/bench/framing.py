"""Where a person sets the camera up: anywhere in range from which the whole golfer shows."""

from dataclasses import replace
from math import atan, degrees, radians, tan

import numpy as np

from baycue.plan.stance import Handedness, View
from baycue.synthetic.camera import Camera
from baycue.synthetic.scene import FloatArray

DISTANCE_M = (2.5, 5.0)
HEIGHT_M = (0.6, 1.6)
FIELD_OF_VIEW_DEG = (55.0, 90.0)
YAW_MOST_DEG = 10.0
TILT_MOST_DEG = 5.0
ROUND_MOST_DEG = {View.FACE_ON: 10.0, View.DOWN_THE_LINE: 6.0}
"""How far round the golfer a camera stands; down the line people take more care to be behind
the hands (common practice, no source)."""
HAND_LINE_M = 0.25
"""Where the hands go, from between the feet toward the ball: what is looked at down the line."""
_OFF_CENTRE_MOST = 0.35
"""How far from the picture's middle the golfer may stand, as a share of half its width."""

_EDGE_SHARE = 0.03
_TILTS_DEG = np.linspace(-TILT_MOST_DEG, TILT_MOST_DEG, 41)


def placed(
    rng: np.random.Generator,
    stature_m: float,
    handedness: Handedness,
    roll_most_deg: float,
    view: View = View.FACE_ON,
) -> Camera:
    """A camera that shows the golfer from head to feet and the hands all the way.

    ``yaw_deg`` is drawn to 10 deg either way; the camera then stands as far aside as puts
    the golfer where drawn in the picture, and at most ``ROUND_MOST_DEG`` round the golfer.  Roll
    is triangular about level.  Tilt is any that shows the golfer.
    """
    while True:
        camera = _anywhere(rng, handedness, roll_most_deg, view)
        if abs(round_the_golfer_deg(camera)) > ROUND_MOST_DEG[view]:
            continue
        fitting = [t for t in _TILTS_DEG if shows(replace(camera, tilt_deg=float(t)), stature_m)]
        if fitting:
            return replace(camera, tilt_deg=float(rng.choice(fitting)))


def round_the_golfer_deg(camera: Camera) -> float:
    """How far round the golfer the camera stands from where the view has it, to its right.

    Face-on that is square to the target line between the feet; down the line it is the line on
    which the hands stand.
    """
    return degrees(atan((camera.aside_m - _middle_aside_m(camera)) / camera.distance_m))


def _middle_aside_m(camera: Camera) -> float:
    """Where what is looked at stands, to the camera's right."""
    if camera.view is View.FACE_ON:
        return 0.0
    return HAND_LINE_M if camera.handedness is Handedness.RIGHT else -HAND_LINE_M


def shows(camera: Camera, stature_m: float) -> bool:
    """Whether head, feet, hands and club stay in the picture, a little from its edge."""
    pixels, _ = camera.project(_reach_m(stature_m, camera))
    margin_px = _EDGE_SHARE * camera.height_px
    high = np.array([camera.width_px, camera.height_px]) - margin_px
    return bool(np.all((pixels >= margin_px) & (pixels <= high)))


def _anywhere(
    rng: np.random.Generator, handedness: Handedness, roll_most_deg: float, view: View
) -> Camera:
    field_deg, yaw_deg = rng.uniform(*FIELD_OF_VIEW_DEG), rng.uniform(-YAW_MOST_DEG, YAW_MOST_DEG)
    off_centre = rng.uniform(-_OFF_CENTRE_MOST, _OFF_CENTRE_MOST)
    off_deg = degrees(atan(off_centre * tan(radians(field_deg / 2))))
    distance_m = rng.uniform(*DISTANCE_M)
    camera = Camera(
        view=view,
        distance_m=float(distance_m),
        height_m=float(rng.uniform(*HEIGHT_M)),
        aside_m=float(-distance_m * tan(radians(off_deg + yaw_deg))),
        yaw_deg=float(yaw_deg),
        roll_deg=float(rng.triangular(-roll_most_deg, 0.0, roll_most_deg)),
        field_of_view_deg=float(field_deg),
        handedness=handedness,
    )
    return replace(camera, aside_m=camera.aside_m + _middle_aside_m(camera))


def _reach_m(stature_m: float, camera: Camera) -> FloatArray:
    """(N, 3) corners of what a swing reaches, seen from the front or from behind."""
    front, behind = _REACHES[View.FACE_ON], _REACHES[View.DOWN_THE_LINE]
    if camera.view is View.FACE_ON:
        return stature_m * front
    target = 1.0 if camera.handedness is Handedness.RIGHT else -1.0
    return np.asarray(stature_m * behind * np.array([target, 1.0, 1.0]))


_FEET = [(x, 0.0, z) for x in (-0.22, 0.22) for z in (-0.1, 0.18)]
_REACHES = {
    View.FACE_ON: np.array(
        [
            *_FEET,
            *((x, 1.06, z) for x in (-0.25, 0.25) for z in (-0.15, 0.2)),
            *((x, 0.45, 0.25) for x in (-0.62, 0.62)),
        ]
    ),
    View.DOWN_THE_LINE: np.array(
        [
            *_FEET,
            *((x, 1.06, z) for x in (-0.3, 0.2) for z in (-0.2, 0.2)),
            (0.05, 0.0, 0.55),
        ]
    ),
}
"""In statures: feet, the hands overhead, and the club to the sides or the ball in front."""
