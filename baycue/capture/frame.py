"""One picture and the moment it was taken."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Picture = NDArray[np.uint8]
"""An (height, width, 3) picture, 8 bits a channel, blue-green-red order as OpenCV has it."""


@dataclass(frozen=True, slots=True)
class Frame:
    """A picture with its monotonic stamp.

    ``stamp_ns`` is the middle of the exposure where the source knows it, otherwise the
    moment right after the read; strictly increasing within one source.
    """

    index: int
    stamp_ns: int
    picture_bgr: Picture
