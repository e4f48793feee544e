"""When the hands begin to leave the ball, and when they turn at the top."""

import numpy as np
from numpy.typing import NDArray

from baycue.pose.pose import Pose
from baycue.swing.hands import hand_track
from baycue.swing.segment import StrikeSeen

FloatArray = NDArray[np.float64]

_NEAR, _FAR = 0.03, 0.12
_LINGER = 0.02
_START_SHARE: float = (_FAR / _NEAR) ** (1 / 3) - 1


def takeaway_s(strike: StrikeSeen, poses: tuple[Pose, ...]) -> float:
    """The start of the backswing, from when the hands have gone a little and four times that.

    From rest a smooth reach grows with the cube of time at first (minimum jerk, Flash and
    Hogan 1985; from memory), so four times as far takes 1.587 times as long.
    """
    times, gone = _gone_from_ball(strike, poses)
    near, far = (_last_crossing_s(times, gone, level) for level in (_NEAR, _FAR))
    if near is None or far is None:
        return strike.takeaway_ns * 1e-9
    return float(near - (far - near) / _START_SHARE)


def hands_top_s(strike: StrikeSeen, poses: tuple[Pose, ...]) -> float:
    """When the hands begin to come down: the last moment near their greatest height.

    They linger there, and the club turns at the end of it.
    """
    track = hand_track([p for p in poses if p.stamp_ns <= strike.return_ns])
    heights = -track.hands_px[:, 1] / float(np.median(track.body_px))
    lingering = np.flatnonzero(heights >= heights.max() - _LINGER)
    return float(track.stamps_ns[lingering[-1]] * 1e-9)


def _gone_from_ball(strike: StrikeSeen, poses: tuple[Pose, ...]) -> tuple[FloatArray, FloatArray]:
    """Times up to the top, s, and the hands' distance from address, body units."""
    track = hand_track([p for p in poses if p.stamp_ns <= strike.top_ns])
    places, still = track.hands_px, track.stamps_ns <= strike.takeaway_ns
    home = np.median(places[still] if still.any() else places[:1], axis=0)
    gone = np.linalg.norm(places - home, axis=1) / track.body_px
    return np.asarray(track.stamps_ns * 1e-9), np.asarray(gone)


def _last_crossing_s(times: FloatArray, values: FloatArray, level: float) -> float | None:
    """The last time at which ``values`` rises through ``level``."""
    up = np.flatnonzero((values[:-1] < level) & (values[1:] >= level))
    if not len(up):
        return None
    k = int(up[-1])
    share = (level - values[k]) / (values[k + 1] - values[k])
    return float(times[k] + share * (times[k + 1] - times[k]))
