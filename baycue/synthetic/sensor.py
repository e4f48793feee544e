"""The camera's sensor: light to noisy 8-bit pictures, the same in every process."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from baycue.capture.frame import Picture
from baycue.synthetic.light import encoded
from baycue.synthetic.painter import LinearColours

_SPARE = 1 << 20


@dataclass(frozen=True, slots=True)
class Noise:
    """Standard deviations in linear light, 0 to 1: ``read``, and ``shot`` at full white."""

    read: float = 0.004
    shot: float = 0.015


WEBCAM = Noise()
QUIET = Noise(0.0, 0.0)


def developed(light: LinearColours, noise: Noise, seed: int, index: int) -> Picture:
    """The picture of (height, width, 3) linear light; noise depends on seed and index only."""
    if noise == QUIET:
        return encoded(light)
    field = _noise_field(seed, light.size)
    start = int(np.random.default_rng([seed, index]).integers(_SPARE))
    grain = field[start : start + light.size].reshape(light.shape)
    spread = np.sqrt(noise.read**2 + noise.shot**2 * np.maximum(light, 0))
    return encoded(light + grain * spread.astype(np.float32))


@lru_cache(maxsize=2)
def _noise_field(seed: int, size: int) -> NDArray[np.float32]:
    """One long field of normal noise; each picture reads it from a place of its own."""
    return np.random.default_rng(seed).standard_normal(size + _SPARE, dtype=np.float32)
