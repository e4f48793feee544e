"""How well the pictures about a moment show the shaft."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.club.reading import Evidence, ShaftReading

FloatArray = NDArray[np.float64]

_NEAREST = 3


@dataclass(frozen=True, slots=True)
class ShaftFrames:
    """When each picture was taken, whether it showed the shaft, and its smear, deg ((N,) each)."""

    times_s: FloatArray
    seen: NDArray[np.bool_]
    smears_deg: FloatArray

    @property
    def apart_s(self) -> float:
        """How far apart pictures usually are; 0 if there are fewer than two."""
        return float(np.median(np.diff(self.times_s))) if len(self.times_s) > 1 else 0.0

    def seen_near(self, time_s: float, within_s: float) -> bool:
        """Whether a picture showed the shaft so near to a moment."""
        return bool((np.abs(self.times_s[self.seen] - time_s) <= within_s).any())

    def missed_about(self, time_s: float) -> int:
        """How many pictures in a row about a moment do not show the shaft."""
        shown = self.times_s[self.seen]
        since, until = shown[shown <= time_s], shown[shown > time_s]
        after_last = self.times_s > (since[-1] if len(since) else -np.inf)
        before_next = self.times_s < (until[0] if len(until) else np.inf)
        return int((after_last & before_next).sum())

    def smear_about_deg(self, time_s: float) -> float:
        """How far the shaft was smeared in the three pictures nearest to a moment.

        Only those count that showed it; 0 if none did.
        """
        nearest = np.argsort(np.abs(self.times_s - time_s))[:_NEAREST]
        shown = self.smears_deg[nearest][self.seen[nearest]]
        return float(shown.mean()) if len(shown) else 0.0


def shaft_frames(shaft: tuple[ShaftReading, ...]) -> ShaftFrames:
    """Of the readings of one swing; down the line there are none."""
    return ShaftFrames(
        np.array([r.stamp_ns for r in shaft]) * 1e-9,
        np.array([r.evidence is Evidence.PICTURE for r in shaft], dtype=bool),
        np.array([r.sweep_deg for r in shaft]),
    )
