"""One swing as the club room sees it."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.club.background import GreyPicture

FloatArray = NDArray[np.float64]

_STAMP_STEP_S = 1e-4


@dataclass(frozen=True, slots=True)
class ClubScene:
    """N frames from address to just after impact, or as far as the swing has come.

    ``greys``: N still-camera pictures (h, w).  ``hands_px``: (N, 2) in those pictures.
    ``arm_deg``: (N,) lead-arm angle counted as the shaft's.  ``body_px``: ankle to hip to
    shoulder.  ``turning``: (N,) -1 going back, +1 coming down, 0 near the top.
    """

    stamps_ns: tuple[int, ...]
    frame_indices: tuple[int, ...]
    greys: Sequence[GreyPicture]
    hands_px: FloatArray
    arm_deg: FloatArray
    body_px: float
    turning: NDArray[np.int8]
    target_on_right: bool

    @property
    def going_back(self) -> slice:
        """The frames before the club comes down, at least one: known as soon as it does."""
        down = np.flatnonzero(self.turning > 0)
        return slice(0, max(int(down[0]), 1) if len(down) else len(self.turning))

    @property
    def frame_s(self) -> float:
        """The usual time between frames going back, s, to a tenth of a millisecond."""
        stamps = self.stamps_ns[self.going_back]
        gap_s = float(np.median(np.diff(stamps if len(stamps) > 1 else self.stamps_ns))) * 1e-9
        return round(gap_s / _STAMP_STEP_S) * _STAMP_STEP_S

    @property
    def arm_rate_deg_s(self) -> FloatArray:
        """How fast the lead arm has turned since the frame before, (N,)."""
        steps_s = np.diff(np.array(self.stamps_ns), prepend=self.stamps_ns[0] - 1) * 1e-9
        return np.asarray(np.diff(self.arm_deg, prepend=self.arm_deg[0]) / steps_s)
