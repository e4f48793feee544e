"""The true rate of a camera and the frames it left out, told from stamps."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from baycue.capture.probe import measured_fps

_WINDOW_NS = 2_000_000_000
_FEWEST = 10
_GAP = 1.6


@dataclass(frozen=True, slots=True)
class Pace:
    """The stamps of the last two seconds."""

    stamps_ns: tuple[int, ...] = ()

    def after(self, stamp_ns: int) -> "Pace":
        """One frame on."""
        oldest_ns = stamp_ns - _WINDOW_NS
        return Pace((*(s for s in self.stamps_ns if s >= oldest_ns), stamp_ns))

    @property
    def fps(self) -> float | None:
        """Frames a second, or None until ten have come.

        Over a network frames come in clumps, so it is the mean over the window that counts.
        """
        if len(self.stamps_ns) < _FEWEST:
            return None
        span_s = (self.stamps_ns[-1] - self.stamps_ns[0]) / 1e9
        return (len(self.stamps_ns) - 1) / span_s


def left_out(stamps_ns: Sequence[int]) -> int:
    """How many frames are missing between the stamps of a camera of steady rate."""
    fps = measured_fps([s / 1e9 for s in stamps_ns])
    if not fps:
        return 0
    frames = np.diff(np.asarray(stamps_ns, dtype=np.float64)) / 1e9 * fps
    return int(np.round(frames[frames > _GAP] - 1).sum())
