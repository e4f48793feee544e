"""MediaPipe's pose landmarker in its video mode: finds a body and follows it, without lag."""

import weakref
from collections.abc import Iterable
from contextlib import nullcontext
from dataclasses import replace
from typing import Any

import cv2
import mediapipe as mp
import numpy as np
from mediapipe.tasks.python.vision import (
    PoseLandmarker,
    PoseLandmarkerOptions,
    RunningMode,
)

from baycue.capture.frame import Frame, Picture
from baycue.errors import NotInstalledError
from baycue.pose.model_file import model_bytes
from baycue.pose.pose import FloatArray, Pose
from baycue.pose.quiet import native_stderr_silenced
from baycue.pose.unheard import UnheardOptions, keep_to_itself
from baycue.pose.window import Window, whole

UNSMOOTHED_STEP_MS = 1_000_000
"""Time told to MediaPipe between frames so that it smooths nothing; see ``VideoModel``."""

_BLANK_PX = 64

_VISIBILITY_WEIGHT = 0.1
"""Weight of the newest frame in MediaPipe's running mean of visibility."""


class VideoModel:
    """Finds one body and follows it, as long as it is always shown the same part of the picture.

    In its video mode MediaPipe follows the body from frame to frame (about half the time of
    detecting it anew in each), but smooths the landmarks with a one-euro filter whose
    strength depends on the time between frames.  So this class tells it that 1000 s pass
    from frame to frame, and the filter lets everything through.  Measured on a rendered
    720p person whose hand sets off at 21 px a frame, error of the wrist in the first five
    frames: at most 2.9 px so; 7.4, 10.7 and 17.3 px if told 33, 17 and 8 ms.  On a rendered
    swing at 60 frames a second the wrists' error in the downswing falls from 15 and 24 px
    (RMS) to 8 and 18.  The price is that landmarks of a still body jitter by 1 to 2.5 px
    instead of under 1: smoothing is left to the swing room, which can look both ways in
    time and so need not lag.

    MediaPipe also takes a running mean of visibility over some ten frames, whatever the
    time; it is undone here (``newest_of_running_mean``).

    ``step_ms`` is the time told from frame to frame; None tells the frames' own stamps, and
    lets MediaPipe smooth: for comparison only.

    Raises:
        BaycueError: the model is damaged or MediaPipe cannot start.
    """

    def __init__(self, step_ms: int | None = UNSMOOTHED_STEP_MS) -> None:
        self._step_ms = step_ms
        self._landmarker = _start(RunningMode.VIDEO, people=1)
        self._finalizer = weakref.finalize(self, _stop, self._landmarker)
        self._clock_ms = 0
        self._smoothed_visibility: FloatArray | None = None

    def find(self, window: Window, frame: Frame) -> Pose | None:
        """The body in this part of the frame, followed if there was one the last time."""
        poses = _poses(self._detect(window.picture, frame.stamp_ns), frame, window)
        if not poses:
            self._smoothed_visibility = None
            return None
        return replace(poses[0], visibility=self._visibility(poses[0].visibility))

    def forget(self, stamp_ns: int) -> None:
        """Look anew the next time: following ends where there is nothing to follow."""
        self._detect(np.zeros((_BLANK_PX, _BLANK_PX, 3), np.uint8), stamp_ns)
        self._smoothed_visibility = None

    def close(self) -> None:
        """Release the model; a second call does nothing."""
        self._finalizer()

    def _detect(self, picture: Picture, stamp_ns: int) -> Any:
        # MediaPipe refuses a time that is not later than the one before.
        told_ms = stamp_ns // 1_000_000 if self._step_ms is None else self._clock_ms + self._step_ms
        self._clock_ms = max(told_ms, self._clock_ms + 1)
        never_found = self._smoothed_visibility is None
        with native_stderr_silenced() if never_found else nullcontext():
            return self._landmarker.detect_for_video(_image(picture), self._clock_ms)

    def _visibility(self, smoothed: FloatArray) -> FloatArray:
        newest = newest_of_running_mean(smoothed, self._smoothed_visibility, _VISIBILITY_WEIGHT)
        self._smoothed_visibility = smoothed
        return np.clip(newest, 0.0, 1.0)


def newest_of_running_mean(
    mean: FloatArray, previous_mean: FloatArray | None, weight: float
) -> FloatArray:
    """Undo ``mean = weight * newest + (1 - weight) * previous_mean`` (first-order low-pass)."""
    if previous_mean is None:
        return mean
    return (mean - (1 - weight) * previous_mean) / weight


def bodies_in(frames: Iterable[Frame], most: int = 2) -> list[tuple[Pose, ...]]:
    """The bodies MediaPipe sees in each frame on its own, up to ``most`` in each.

    Slow (a full detection a frame): for a few sampled frames, to learn whether a second
    person is in the picture.  A body seen is not yet a person; see ``presence``.
    """
    landmarker = _start(RunningMode.IMAGE, most)
    try:
        with native_stderr_silenced():
            return [_poses(landmarker.detect(_image(f.picture_bgr)), f, whole(f)) for f in frames]
    finally:
        _stop(landmarker)


def _image(picture: Picture) -> Any:
    rgb = cv2.cvtColor(picture, cv2.COLOR_BGR2RGB)
    return mp.Image(image_format=mp.ImageFormat.SRGB, data=rgb)


def _poses(result: Any, frame: Frame, window: Window) -> tuple[Pose, ...]:
    """MediaPipe's landmarks, 0 to 1 across a window of the picture, as poses in pixels."""
    size_px = np.array(window.picture.shape[1::-1], dtype=np.float64)
    corner_px = np.array([window.left_px, 0.0])
    return tuple(
        Pose(
            frame_index=frame.index,
            stamp_ns=frame.stamp_ns,
            pixels=np.array([(p.x, p.y) for p in landmarks]) * size_px + corner_px,
            world_m=np.array([(p.x, p.y, p.z) for p in world]),
            visibility=np.array([p.visibility for p in landmarks]),
        )
        for landmarks, world in zip(result.pose_landmarks, result.pose_world_landmarks, strict=True)
    )


def _start(mode: RunningMode, people: int) -> Any:
    keep_to_itself()
    options = PoseLandmarkerOptions(
        base_options=UnheardOptions(model_asset_buffer=model_bytes()),
        running_mode=mode,
        num_poses=people,
    )
    try:
        with native_stderr_silenced():
            return PoseLandmarker.create_from_options(options)
    except (RuntimeError, ValueError, OSError) as error:
        raise NotInstalledError(
            f"the pose model does not start: {error}".splitlines()[0]
        ) from error


def _stop(landmarker: Any) -> None:
    try:
        with native_stderr_silenced():
            landmarker.close()
    except RuntimeError:
        # The process is ending and MediaPipe's own thread is gone already; without a handle
        # its destructor does not try, and complain, again.
        landmarker._handle = None
