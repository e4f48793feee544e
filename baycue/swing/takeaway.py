"""When the hands begin to leave the ball, and when they turn at the top."""

import numpy as np
from numpy.typing import NDArray

from baycue.pose.pose import Pose
from baycue.swing.events import StrikeSeen
from baycue.swing.hands import hand_track

FloatArray = NDArray[np.float64]

_NEAR, _FAR = 0.05, 0.35
_POWER = 2.6
_LINGER = 0.02


def takeaway_s(strike: StrikeSeen, poses: tuple[Pose, ...]) -> float:
    """The start of the backswing, from how the hands gather way over a third of the body.

    A smooth reach from rest (minimum jerk, Flash and Hogan 1985; from memory) grows with the cube
    of time at first and with less later: over that part about with the power 2.6 (fitted on the
    bench's seed 3).  The median of all slopes and starts (Theil 1950, Sen 1968; from memory), so
    that hands that the pose model moved while somebody walked by do not count.
    """
    times, gone = _gone_from_ball(strike, poses)
    way = _gathering_way(gone)
    return strike.takeaway_ns * 1e-9 if way is None else _start_s(times[way], gone[way])


def _gathering_way(gone: FloatArray) -> slice | None:
    """From the last time near the ball to when the hands have gone far for good."""
    beyond = int(np.flatnonzero(gone < _FAR)[-1]) + 1
    if beyond == len(gone):
        return None
    near = np.flatnonzero(gone[:beyond] < _NEAR)
    return slice(int(near[-1]) if len(near) else 0, beyond + 1)


def _start_s(times: FloatArray, gone: FloatArray) -> float:
    """When a reach that grows with the power of time began."""
    root = gone ** (1 / _POWER)
    one, other = np.triu_indices(len(times), 1)
    slope = np.median((root[other] - root[one]) / (times[other] - times[one]))
    return float(np.median(times - root / slope))


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
