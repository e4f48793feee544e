"""How the pose model's landmarks stand to true joints: a few constants, and how they were made.

Fitted by least squares on synthetic swings drawn at random (three bodies, stature 1.52 to
1.93 m, both hands, camera 2.9 to 4.2 m away and 0.7 to 1.4 m high, up to 0.4 m aside, 30 and
60 frames a second, all bays and clubs), never on the sample recordings.  Their leave-one-out
errors are 9 mm for the knee and 7 mm for the head; the knee's is widened by a quarter, as the
wider population of the bench (cameras panned and tilted) asks.  Real golfers were not
measured: the model may stand differently to theirs.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class KneeCalibration:
    """True knee past ankle = ``gain`` * seen + ``offset_m``.

    The model pulls the knee toward the ankle, so the gain is above 1, and draws it too near
    the camera, so only ``depth_share`` of its depth counts.  ``sigma_m``: what remains.
    """

    gain: float
    offset_m: float
    depth_share: float
    sigma_m: float


@dataclass(frozen=True, slots=True)
class HeadCalibration:
    """The head's centre lies on the line from nose through ears, carried on by
    ``behind_ears`` of their distance: there a nod of the face hardly moves it.

    ``sigma_m``: error of a change of height.
    """

    behind_ears: float
    sigma_m: float


KNEE = KneeCalibration(gain=1.14, offset_m=0.007, depth_share=0.63, sigma_m=0.0115)
HEAD = HeadCalibration(behind_ears=0.3, sigma_m=0.007)
