"""Pictures come, and yet no swing can be judged by them: why, in a few words."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from baycue.capture.shot import Shot
from baycue.live.still import Still

LOOKED_AT_NS = 3_000_000_000
_FEWEST_SHOTS = 10
_SPAN_NS = 2_000_000_000
_GAP_NS, _GAPS_SHARE = 250_000_000, 0.5
_FEWEST_FPS = 18.0
_BLACK, _BLACK_SHARE = 20, 0.995
"""Grey, of 255: a covered lens with a sensor's noise stays below; a bay with any light does not."""


@dataclass(frozen=True, slots=True)
class PictureTrouble:
    """``blind``: nothing at all is seen; otherwise swings are seen and not judged."""

    words: str = ""
    blind: bool = False


def picture_trouble(shots: Sequence[Shot], stills: Sequence[Still]) -> PictureTrouble:
    """What is wrong with the last three seconds' pictures; ``stills``: what could be made of them.

    No words while all is well or the camera has not been on for long enough to tell.
    """
    if len(shots) < _FEWEST_SHOTS or shots[-1].stamp_ns - shots[0].stamp_ns < _SPAN_NS:
        return PictureTrouble()
    if not stills or stills[-1].stamp_ns < shots[-1].stamp_ns - _SPAN_NS:
        return PictureTrouble("its pictures are damaged; try another cable, port or address", True)
    if float(np.mean(stills[-1].grey < _BLACK)) > _BLACK_SHARE:
        return PictureTrouble(
            "its pictures are black: is the lens covered, or the light off?", True
        )
    return _unsteady(np.diff([shot.stamp_ns for shot in shots]))


def _unsteady(gaps_ns: np.ndarray[tuple[int], np.dtype[np.int64]]) -> PictureTrouble:
    long = gaps_ns[gaps_ns > _GAP_NS]
    if len(long) > 1 and long.sum() > _GAPS_SHARE * gaps_ns.sum():
        return PictureTrouble(
            f"its pictures come in bunches, {long.max() / 1e9:.1f} s apart; a better network "
            "may help",
            True,
        )
    fps = 1e9 * len(gaps_ns) / float(gaps_ns.sum())
    if fps >= _FEWEST_FPS:
        return PictureTrouble()
    return PictureTrouble(
        f"only {fps:.0f} pictures a second come, and 24 are needed: swings may not be judged"
    )
