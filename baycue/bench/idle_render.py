"""Frames of an idle clip, as cheap as they can be and still be looked at by the pose model.

One exposure a frame, so nothing is blurred; a dark disc for a shadow; and while nothing moves
only the sensor's noise is new.  The frames go to the program as they are, without a file.
"""

from collections.abc import Iterator

import cv2
import numpy as np

from baycue.bench.idle_population import IdleClip
from baycue.capture.frame import Frame
from baycue.synthetic.clip import stage_of
from baycue.synthetic.compositing import Slice, compose
from baycue.synthetic.figure import to_bay
from baycue.synthetic.painter import LinearColours, flatten
from baycue.synthetic.scene import FloatArray, Moment
from baycue.synthetic.sensor import developed
from baycue.synthetic.stage import Stage

_STILL_M = 1e-4
_DISC_M, _DISC_LIGHT = 0.32, 0.7
_ROUND = np.linspace(0, 2 * np.pi, 24, endpoint=False)


def frame_count(clip: IdleClip) -> int:
    """How many frames the clip has."""
    return max(1, round(clip.motion.duration_s * clip.shot.fps))


def idle_frames(clip: IdleClip) -> Iterator[Frame]:
    """The frames in order, flipped if the camera mirrors."""
    shot = clip.shot
    for index, light in enumerate(_lights(clip)):
        picture = developed(light, shot.noise, shot.seed, index)
        seen = np.ascontiguousarray(picture[:, ::-1]) if shot.mirrored else picture
        yield Frame(index, round(shot.time_s(index) * 1e9), seen)


def _lights(clip: IdleClip) -> Iterator[LinearColours]:
    stage = stage_of(clip.shot)
    moment = clip.motion.moment_at(0.0)
    light = snapshot(stage, moment)
    for index in range(frame_count(clip)):
        now = clip.motion.moment_at(clip.shot.time_s(index))
        if not _same(now, moment):
            moment, light = now, snapshot(stage, now)
        yield light


def snapshot(stage: Stage, moment: Moment) -> LinearColours:
    """(height, width, 3) linear light of one instant."""
    light = stage.backdrop.copy()
    for bones in (moment.bones, moment.walker):
        if bones is not None:
            _darken_under(light, stage, bones)
    people = flatten(stage.people(moment), stage.camera)
    props = [flatten(p, stage.camera) for p in stage.props(moment.club, moment.ball_m)]
    compose(stage.camera, [Slice(people, [props], 1.0)], light)
    return light


def _darken_under(light: LinearColours, stage: Stage, bones: FloatArray) -> None:
    """A dark disc on the floor under somebody."""
    middle_m = to_bay(bones[1:, :3, 3].mean(axis=0), stage.handedness)
    ring = np.stack([np.cos(_ROUND), np.zeros_like(_ROUND), np.sin(_ROUND)], axis=1)
    pixels, _ = stage.camera.project(middle_m * [1, 0, 1] + _DISC_M * ring)
    mask = np.zeros(light.shape[:2], np.uint8)
    cv2.fillConvexPoly(mask, np.rint(pixels).astype(np.int32), 1)
    light[mask == 1] *= _DISC_LIGHT


def _same(one: Moment, other: Moment) -> bool:
    """Whether nothing in the bay is elsewhere."""
    ours, theirs = _places(one), _places(other)
    return all(
        (a is None) == (b is None)
        and (a is None or b is None or float(np.abs(a - b).max()) < _STILL_M)
        for a, b in zip(ours, theirs, strict=True)
    )


def _places(moment: Moment) -> tuple[FloatArray | None, ...]:
    club = None if moment.club is None else moment.club.head_m
    return moment.bones, moment.walker, club, moment.ball_m
