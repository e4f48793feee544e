"""A camera at this machine's USB port, through OpenCV."""

import sys
import time
from typing import Any

import cv2
import numpy as np

from baycue.capture.settings import CameraAnswer, CameraSettings, exposure_value
from baycue.capture.shot import Content
from baycue.errors import CameraError, CameraLostError

_BACKENDS = {
    "linux": (cv2.CAP_V4L2, cv2.CAP_ANY),
    "win32": (cv2.CAP_DSHOW, cv2.CAP_MSMF),
    "darwin": (cv2.CAP_AVFOUNDATION,),
}
"""In the order tried; on Windows the second may take ten seconds to open."""

_MANUAL_EXPOSURE = {"linux": 1.0, "win32": 0.25}
_FAILED_READS = 5


class WebcamFeed:
    """A ``Feed`` of plain pictures from camera ``index``.

    Settings are asked for and then read back; many cameras silently do something else.
    Raises CameraError if no way of opening it gives a picture.
    """

    def __init__(self, index: int, asked: CameraSettings) -> None:
        self._name, self._asked = f"camera {index}", asked
        started = time.monotonic()
        self._capture = _open(index, asked)
        self._open_s = time.monotonic() - started

    def read(self) -> Content:
        """The next picture; CameraError after several reads in vain."""
        for _ in range(_FAILED_READS):
            good, picture = self._capture.read()
            if good and picture is not None:
                return np.asarray(picture, dtype=np.uint8)
        raise CameraLostError(f"{self._name}: gives no pictures any more; is it still plugged in?")

    def close(self) -> None:
        """Let go of the camera."""
        self._capture.release()

    def describe(self) -> str:
        """What was got."""
        answer = _answer(self._capture).describe(self._asked)
        return f"{self._name}, {answer}, opened in {self._open_s:.1f} s"


def _open(index: int, asked: CameraSettings) -> Any:
    # A camera that is not there is told of once by us, and not at every try by OpenCV.
    cv2.utils.logging.setLogLevel(cv2.utils.logging.LOG_LEVEL_SILENT)
    for backend in _BACKENDS.get(sys.platform, (cv2.CAP_ANY,)):
        capture = cv2.VideoCapture(index, backend)
        if capture.isOpened():
            _ask(capture, asked)
            good, _ = capture.read()
            if good:
                return capture
        capture.release()
    raise CameraError(
        f"camera {index}: cannot be opened; `baycue devices` lists what is there. Another "
        "program may hold it, or this one may lack the permission to use cameras"
    )


def _ask(capture: Any, asked: CameraSettings) -> None:
    """MJPG first: with it other sizes and rates are on offer.  One buffer is a mere hint."""
    if asked.jpeg:
        capture.set(cv2.CAP_PROP_FOURCC, cv2.VideoWriter.fourcc(*"MJPG"))
    wishes = (
        (cv2.CAP_PROP_FRAME_WIDTH, asked.width_px),
        (cv2.CAP_PROP_FRAME_HEIGHT, asked.height_px),
        (cv2.CAP_PROP_FPS, asked.fps),
        (cv2.CAP_PROP_BUFFERSIZE, 1),
    )
    for wish, value in wishes:
        if value is not None:
            capture.set(wish, float(value))
    if asked.exposure_ms is not None:
        capture.set(cv2.CAP_PROP_AUTO_EXPOSURE, _MANUAL_EXPOSURE.get(sys.platform, 0.25))
        capture.set(cv2.CAP_PROP_EXPOSURE, exposure_value(asked.exposure_ms, sys.platform))


def _answer(capture: Any) -> CameraAnswer:
    return CameraAnswer(
        backend=str(capture.getBackendName()),
        width_px=int(capture.get(cv2.CAP_PROP_FRAME_WIDTH)),
        height_px=int(capture.get(cv2.CAP_PROP_FRAME_HEIGHT)),
        fps=float(capture.get(cv2.CAP_PROP_FPS)),
        packing=fourcc_text(int(capture.get(cv2.CAP_PROP_FOURCC))),
    )


def fourcc_text(code: int) -> str:
    """The four letters of a packing's code; "" for a code that is none."""
    letters = bytes((code >> 8 * k) & 0xFF for k in range(4))
    return letters.decode() if letters.isalnum() else ""
