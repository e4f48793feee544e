"""The true rate of a camera and the frames it left out, told from stamps."""

from dataclasses import dataclass

import numpy as np

_WINDOW_NS = 2_000_000_000
_FEWEST = 10
_GAP = 1.6
_UNSTEADY, _MOSTLY = 0.5, 0.7


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

    def missing_before(self, stamp_ns: int) -> int:
        """How many frames a camera of steady rate left out before this one.

        Where frames come in clumps, as over a network, gaps tell nothing and the answer is 0.
        """
        if len(self.stamps_ns) < _FEWEST:
            return 0
        intervals = np.diff(self.stamps_ns)
        usual_ns = float(np.median(intervals))
        frames = (stamp_ns - self.stamps_ns[-1]) / max(usual_ns, 1.0)
        steady = float(np.mean(np.abs(intervals - usual_ns) < _UNSTEADY * usual_ns)) > _MOSTLY
        return round(frames) - 1 if steady and frames > _GAP else 0
