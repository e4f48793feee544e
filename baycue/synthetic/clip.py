"""Render whole clips: frames at i / fps, each stamped at the middle of its exposure."""

import multiprocessing
from collections import deque
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path

import cv2
import numpy as np

from baycue.capture.clip_writer import ClipWriter
from baycue.capture.frame import Frame, Picture
from baycue.plan.stance import Handedness
from baycue.synthetic.backdrop import backdrop
from baycue.synthetic.bay import PLAIN, Bay
from baycue.synthetic.camera import Camera
from baycue.synthetic.clothes import BLUE_AND_GREY, COLOURWAYS, Clothes, dress
from baycue.synthetic.figure import to_bay
from baycue.synthetic.props import STEEL_IRON, ClubLook
from baycue.synthetic.scene import Body, FloatArray
from baycue.synthetic.sensor import WEBCAM, Noise, developed
from baycue.synthetic.shutter import MomentAt, exposed
from baycue.synthetic.stage import Stage

Progress = Callable[[int, int], None]
_AHEAD = 8


@dataclass(frozen=True, slots=True)
class Shot:
    """How a clip is taken.

    The camera's own ``handedness`` says whose target line it looks along; the picture is
    flipped left to right last of all if ``mirrored``.
    """

    body: Body
    camera: Camera
    bay: Bay = PLAIN
    clothes: Clothes = BLUE_AND_GREY
    club_look: ClubLook = STEEL_IRON
    fps: float = 30.0
    shutter_s: float = 1 / 60
    noise: Noise = WEBCAM
    seed: int = 1
    mirrored: bool = False
    walker_body: Body | None = None
    walker_clothes: Clothes = COLOURWAYS["green_and_navy"]

    def time_s(self, index: int) -> float:
        """Middle of the exposure of a frame."""
        return index / self.fps

    def picture_px(self, points_m: FloatArray) -> FloatArray:
        """(N, 2) px in the clip of motion's (N, 3) right-handed points."""
        pixels, _ = self.camera.project(to_bay(points_m, self.camera.handedness))
        if self.mirrored:
            pixels[:, 0] = self.camera.width_px - 1 - pixels[:, 0]
        return pixels


def stage_of(shot: Shot) -> Stage:
    """The stage of a shot, the backdrop drawn."""
    walker = None if shot.walker_body is None else dress(shot.walker_body, shot.walker_clothes)
    handedness: Handedness = shot.camera.handedness
    return Stage(
        camera=shot.camera,
        golfer=dress(shot.body, shot.clothes),
        backdrop=backdrop(shot.bay, shot.camera, handedness),
        lighting=shot.bay.lighting,
        handedness=handedness,
        club_look=shot.club_look,
        walker=walker,
    )


def render_frame(shot: Shot, stage: Stage, moment_at: MomentAt, index: int) -> Picture:
    """The picture of one frame."""
    light = exposed(stage, moment_at, shot.time_s(index), shot.shutter_s)
    picture = developed(light, shot.noise, shot.seed, index)
    return np.ascontiguousarray(picture[:, ::-1]) if shot.mirrored else picture


def render_frames(
    shot: Shot, moment_at: MomentAt, duration_s: float, workers: int = 2
) -> Iterator[Frame]:
    """The frames of a shot in order.

    With more than one worker ``moment_at`` is sent to other processes, so it must be
    picklable (a dataclass with ``__call__``, not a closure).
    """
    count = max(1, round(duration_s * shot.fps))
    pictures = (
        _alone(shot, moment_at, count) if workers == 1 else _shared(shot, moment_at, count, workers)
    )
    for index, picture in enumerate(pictures):
        yield Frame(index, round(shot.time_s(index) * 1e9), picture)


def render_clip(
    shot: Shot,
    moment_at: MomentAt,
    duration_s: float,
    path: Path,
    *,
    workers: int = 2,
    crf: int = 18,
    progress: Progress | None = None,
) -> int:
    """Render to an MP4 at ``path``; returns the number of frames written.

    ``progress`` is called with (frames done, frames in all).  Raises OutputError if the
    clip exists already.
    """
    count = max(1, round(duration_s * shot.fps))
    with ClipWriter(path, shot.camera.width_px, shot.camera.height_px, crf=crf) as writer:
        for frame in render_frames(shot, moment_at, duration_s, workers):
            writer.write(frame)
            if progress is not None:
                progress(frame.index + 1, count)
    return count


def _alone(shot: Shot, moment_at: MomentAt, count: int) -> Iterator[Picture]:
    stage = stage_of(shot)
    for index in range(count):
        yield render_frame(shot, stage, moment_at, index)


def _shared(shot: Shot, moment_at: MomentAt, count: int, workers: int) -> Iterator[Picture]:
    """Frames rendered by several processes, never more than a few ahead of the reader."""
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(workers, context, _set_up, (shot, moment_at)) as pool:
        waiting: deque[Future[Picture]] = deque()
        for index in range(count):
            waiting.append(pool.submit(_rendered, index))
            if len(waiting) > _AHEAD:
                yield waiting.popleft().result()
        while waiting:
            yield waiting.popleft().result()


@dataclass(slots=True)
class _Job:
    shot: Shot
    stage: Stage
    moment_at: MomentAt


_job: list[_Job] = []


def _set_up(shot: Shot, moment_at: MomentAt) -> None:
    cv2.setNumThreads(1)
    _job[:] = [_Job(shot, stage_of(shot), moment_at)]


def _rendered(index: int) -> Picture:
    return render_frame(_job[0].shot, _job[0].stage, _job[0].moment_at, index)
