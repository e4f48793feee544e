"""Light: how bright a facet is, and the step between linear light and picture values."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.scene import FloatArray


@dataclass(frozen=True, slots=True)
class Lighting:
    """Lamps overhead and in front; ``level`` 1.25 is a well-lit bay."""

    level: float = 1.25
    toward: tuple[float, float, float] = (-0.35, 0.8, 0.5)
    ambient: float = 0.45
    lamp: float = 0.6


BRIGHT = Lighting()


def shade(albedo: FloatArray, normals: FloatArray, lighting: Lighting) -> FloatArray:
    """(N, 3) linear colours of matt facets: Lambert's cosine law plus sky-like ambient."""
    toward = np.asarray(lighting.toward) / np.linalg.norm(lighting.toward)
    lamp = lighting.lamp * np.clip(normals @ toward, 0.0, None)
    ambient = lighting.ambient * (0.75 + 0.25 * normals[:, 1])
    return np.asarray(albedo * (lighting.level * (lamp + ambient))[:, None])


def linear_from_srgb(colours: FloatArray) -> FloatArray:
    """sRGB values 0 to 1 to linear light (IEC 61966-2-1)."""
    toe = colours / 12.92
    return np.where(colours <= 0.04045, toe, ((np.maximum(colours, 0) + 0.055) / 1.055) ** 2.4)


def srgb_from_linear(light: FloatArray) -> FloatArray:
    """Linear light 0 to 1 to sRGB values 0 to 1 (IEC 61966-2-1)."""
    toe = light * 12.92
    return np.where(light <= 0.0031308, toe, 1.055 * np.maximum(light, 0) ** (1 / 2.4) - 0.055)


def colour(hexadecimal: str) -> FloatArray:
    """Linear-light BGR of a colour written ``#rrggbb``."""
    red_green_blue = [int(hexadecimal[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    return linear_from_srgb(np.array(red_green_blue[::-1]))


_STEPS = 8192
_ENCODED: NDArray[np.float32] = (
    255 * srgb_from_linear((np.arange(_STEPS, dtype=np.float64)) / (_STEPS - 1))
).astype(np.float32)


def encoded(light: NDArray[np.float32]) -> NDArray[np.uint8]:
    """Linear light 0 to 1 to 8-bit sRGB values, clipped."""
    steps = np.clip(light * (_STEPS - 1) + 0.5, 0, _STEPS - 1).astype(np.uint16)
    return np.asarray((_ENCODED + 0.5).astype(np.uint8)[steps])
