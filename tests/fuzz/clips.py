"""Recordings: small clips in five containers, damaged, through all that `score` does with one."""

import io
from contextlib import suppress
from functools import cache
from itertools import pairwise
from pathlib import Path
from random import Random

import av
from av.video.stream import VideoStream

from baycue.capture.frame import Frame
from baycue.capture.recording import RecordingSource
from baycue.errors import SceneError
from baycue.plan.load import parse_plan
from baycue.pose.pose import Pose
from baycue.recording import score_frames
from tests.conftest import grey_with_number
from tests.fuzz.damage import damaged
from tests.fuzz.target import Target
from tests.kept_swing import PLAN

_FRAMES, _WIDTH_PX, _HEIGHT_PX = 12, 64, 48
_KINDS = (
    ("mp4", "libx264"),
    ("mov", "mjpeg"),
    ("matroska", "libx264"),
    ("webm", "libvpx"),
    ("avi", "mjpeg"),
)
KINDS = len(_KINDS)
_SUFFIXES = (".mp4", ".mov", ".mkv", ".webm", ".avi")


class Nobody:
    """A ``PoseEstimator`` for clips without people, so that a clip costs its decoding alone."""

    def estimate(self, frame: Frame) -> Pose | None:
        """Never a body."""
        assert frame.picture_bgr.ndim == 3
        return None

    def close(self) -> None:
        """Nothing to release."""


def draw(random: Random) -> bytes:
    """A clip's bytes behind one byte that says how its file is called."""
    kind = random.randrange(KINDS)
    name = kind if random.random() < 0.9 else random.randrange(len(_SUFFIXES))
    data = seed(kind)
    if random.random() < 0.05:
        other = seed(random.randrange(KINDS))
        data = data[: random.randrange(len(data))] + other[random.randrange(len(other)) :]
    return bytes([name]) + damaged(data, random)


def feed(data: bytes, folder: Path) -> None:
    """Play it to its end and look for a swing, as `score` does."""
    path = folder / f"swing{_SUFFIXES[data[0] % len(_SUFFIXES)] if data else ''}"
    path.write_bytes(data[1:])
    with RecordingSource(path) as source:
        frames = [frame for frame in source if frame.index < _FRAMES]
        assert all(a.stamp_ns < b.stamp_ns for a, b in pairwise(frames))
        with suppress(SceneError):  # there is nobody in it
            score_frames(path.name, frames, Nobody(), parse_plan(PLAN, "plan.yaml"))


@cache
def seed(kind: int) -> bytes:
    """A whole clip."""
    container_name, codec = _KINDS[kind]
    file = io.BytesIO()
    with av.open(file, "w", format=container_name) as container:
        stream = container.add_stream(codec, rate=30)
        assert isinstance(stream, VideoStream)
        stream.width, stream.height = _WIDTH_PX, _HEIGHT_PX
        stream.pix_fmt = "yuvj420p" if codec == "mjpeg" else "yuv420p"
        for number in range(_FRAMES):
            picture = grey_with_number(number, _WIDTH_PX, _HEIGHT_PX)
            container.mux(stream.encode(av.VideoFrame.from_ndarray(picture, format="bgr24")))
        container.mux(stream.encode(None))
    return file.getvalue()


TARGET = Target("clip", 0.04, draw, feed)
