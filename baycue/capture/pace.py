"""The true rate of a camera and the frames it left out, told from stamps."""

from dataclasses import dataclass

import numpy as np

_WINDOW_NS = 2_000_000_000
_FEWEST = 10
_GAP = 1.6
_AT_ONCE = 0.4
_UNSTEADY = 2.0


@dataclass(frozen=True, slots=True)
class Pace:
    """The stamps of the last two seconds, and how many frames seem to be missing so far."""

    stamps_ns: tuple[int, ...] = ()
    missing: int = 0

    def after(self, stamp_ns: int) -> "Pace":
        """One frame on."""
        oldest_ns = stamp_ns - _WINDOW_NS
        stamps = (*(s for s in self.stamps_ns if s >= oldest_ns), stamp_ns)
        return Pace(stamps, max(self.missing + self._left_out_before(stamp_ns), 0))

    @property
    def fps(self) -> float | None:
        """Frames a second, or None until ten have come.

        Over a network frames come in clumps, so it is the mean over the window that counts.
        """
        if len(self.stamps_ns) < _FEWEST:
            return None
        span_s = (self.stamps_ns[-1] - self.stamps_ns[0]) / 1e9
        return (len(self.stamps_ns) - 1) / span_s if span_s > 0 else None

    def _left_out_before(self, stamp_ns: int) -> int:
        """How many frames a camera of steady rate left out before this one.

        A frame that comes at once after a gap was late, not missing, and counts -1.  Where
        frames come in clumps, as over a network, gaps tell nothing and the answer is 0.
        """
        if len(self.stamps_ns) < _FEWEST:
            return 0
        intervals = np.diff(self.stamps_ns)
        usual_ns = max(float(np.median(intervals)), 1.0)
        frames = (stamp_ns - self.stamps_ns[-1]) / usual_ns
        if float(intervals.mean()) > _UNSTEADY * usual_ns:
            return 0
        return -1 if frames < _AT_ONCE else round(frames) - 1 if frames > _GAP else 0
