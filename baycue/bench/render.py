"""Render a draw's clip; while the golfer stands still, only the sensor's noise is new."""

from collections.abc import Iterator
from pathlib import Path

import numpy as np

from baycue.bench.staging import Staged
from baycue.capture.clip_writer import ClipWriter
from baycue.capture.frame import Frame
from baycue.synthetic.clip import stage_of
from baycue.synthetic.painter import LinearColours
from baycue.synthetic.sensor import developed
from baycue.synthetic.shutter import exposed

CRF = 20
"""H.264 quality of the clips: their artefacts are part of the job."""


def render(staged: Staged, clip: Path) -> None:
    """Write the clip; raises OutputError if it exists already."""
    camera = staged.shot.camera
    with ClipWriter(clip, camera.width_px, camera.height_px, crf=CRF) as writer:
        for frame in frames(staged):
            writer.write(frame)


def frames(staged: Staged) -> Iterator[Frame]:
    """The same frames as ``synthetic.clip.render_frames``, in less time."""
    shot = staged.shot
    for index, light in enumerate(_lights(staged)):
        picture = developed(light, shot.noise, shot.seed, index)
        seen = np.ascontiguousarray(picture[:, ::-1]) if shot.mirrored else picture
        yield Frame(index, round(shot.time_s(index) * 1e9), seen)


def _lights(staged: Staged) -> Iterator[LinearColours]:
    shot, moment_at = staged.shot, staged.motion.moment_at
    stage, still = stage_of(shot), None
    for index in range(max(1, round(staged.duration_s * shot.fps))):
        time_s = shot.time_s(index)
        if time_s + shot.shutter_s / 2 > staged.still_until_s:
            yield exposed(stage, moment_at, time_s, shot.shutter_s)
            continue
        if still is None:
            still = exposed(stage, moment_at, time_s, shot.shutter_s)
        yield still
