"""What is asked of a camera, and what came of it."""

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CameraSettings:
    """What to ask for; None leaves the camera its own choice.

    ``exposure_ms`` sets automatic exposure off: in dim halls it halves the frame rate.
    ``jpeg``: packed pictures, without which USB 2 carries 720p at 10 frames a second.
    """

    width_px: int | None = 1280
    height_px: int | None = 720
    fps: float | None = 60.0
    exposure_ms: float | None = None
    jpeg: bool = True


@dataclass(frozen=True, slots=True)
class CameraAnswer:
    """What the driver says it does; 0 or "" where it says nothing."""

    backend: str
    width_px: int
    height_px: int
    fps: float
    packing: str

    def describe(self, asked: CameraSettings) -> str:
        """One line on what was got, and where it is not what was asked for."""
        said = f"{self.width_px}x{self.height_px}, {self.fps:g} frames a second as the driver says"
        packing = self.packing or "packing unknown"
        differs = self._differences(asked)
        note = f" (asked for {', '.join(differs)})" if differs else ""
        return f"{said}, {packing}, through {self.backend}{note}"

    def _differences(self, asked: CameraSettings) -> list[str]:
        wanted = []
        size = (asked.width_px, asked.height_px)
        if None not in size and size != (self.width_px, self.height_px):
            wanted.append(f"{size[0]}x{size[1]}")
        if asked.fps and abs(asked.fps - self.fps) > 0.5:
            wanted.append(f"{asked.fps:g} a second")
        if asked.jpeg and self.packing != "MJPG":
            wanted.append("MJPG")
        return wanted


def exposure_value(exposure_ms: float, platform: str) -> float:
    """The number that the platform's driver takes for an exposure time.

    Linux (V4L2, ``exposure_time_absolute``): tenths of a millisecond.  Elsewhere OpenCV hands
    on the power of two of a second, such as -8 for 1/256 s.  Both from the drivers' documents,
    neither tried on a camera.
    """
    if platform.startswith("linux"):
        return float(round(exposure_ms * 10))
    return float(round(math.log2(exposure_ms / 1000)))
