"""A network camera that speaks RTSP."""

from baycue.capture.camera_kind import CameraKind
from baycue.capture.stream import StreamFeed

KIND = CameraKind(("rtsp", "rtsps"), "rtsp://192.168.1.20/stream", StreamFeed)
