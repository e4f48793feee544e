"""The pose model behind the ``PoseEstimator`` seam: whom to follow, and when to look anew."""

from types import TracebackType
from typing import Self

from baycue.capture.frame import Frame
from baycue.pose.choosing import Choosing, is_same, nearer_beside
from baycue.pose.pose import Pose
from baycue.pose.presence import plausible
from baycue.pose.video_model import UNSMOOTHED_STEP_MS, VideoModel
from baycue.pose.window import Window, alone, middle_square, whole, without

_IMPLAUSIBLE_MOST, _IMPLAUSIBLE_MOST_AT_FIRST = 6, 1


class MediaPipePose:
    """Follows one golfer through the frames of one source, without lag (see ``VideoModel``).

    A golfer small in a wide picture escapes the detector, so as long as none is followed every
    other frame is searched in its middle square alone, where they are larger.  MediaPipe
    goes on following whatever it took for a body, a bag of clubs too, so after some frames of
    no plausible person it is made to look anew.  And of two people it may take the one who walks
    by in the back; so until somebody has stood still there is a look, now and then, for somebody
    nearer.

    ``step_ms``: see ``VideoModel``.

    One instance per source; frames in order.  Use as a context manager, or ``close``.

    Raises:
        BaycueError: the model is damaged or MediaPipe cannot start.
    """

    def __init__(self, step_ms: int | None = UNSMOOTHED_STEP_MS) -> None:
        self._model = VideoModel(step_ms)
        self._middle_only = False
        self._implausible = _IMPLAUSIBLE_MOST - _IMPLAUSIBLE_MOST_AT_FIRST
        self._choosing = Choosing()

    def estimate(self, frame: Frame) -> Pose | None:
        """The body in this frame, or None if MediaPipe found none."""
        window = self._window(frame)
        pose = self._model.find(window, frame)
        if pose is None:
            self._look_elsewhere()
        elif not _is_person(pose, frame):
            self._forget_what_is_no_person(frame)
        else:
            self._implausible = 0
            if self._choosing.due(pose):
                pose = self._nearest(pose, frame)
            self._choosing = self._choosing.after(pose)
        return pose

    def _window(self, frame: Frame) -> Window:
        return middle_square(frame) if self._middle_only else whole(frame)

    def _look_elsewhere(self) -> None:
        self._implausible = _IMPLAUSIBLE_MOST - _IMPLAUSIBLE_MOST_AT_FIRST
        self._middle_only = not self._middle_only

    def _forget_what_is_no_person(self, frame: Frame) -> None:
        self._implausible += 1
        if self._implausible > _IMPLAUSIBLE_MOST:
            self._model.forget(frame.stamp_ns)
            self._look_elsewhere()

    def _nearest(self, pose: Pose, frame: Frame) -> Pose:
        """Somebody nearer the camera if there is one; it is them who are followed then."""
        found_in_middle, others = self._middle_only, without(frame, pose)
        for self._middle_only in (False, True):
            other = self._found_anew(others)
            if other and _is_person(other, frame) and nearer_beside(other, pose):
                return other
        self._middle_only = found_in_middle
        again = self._found_anew(frame)
        if again is None or not is_same(again, pose):
            self._found_anew(alone(frame, pose))
        return pose

    def _found_anew(self, frame: Frame) -> Pose | None:
        self._model.forget(frame.stamp_ns)
        return self._model.find(self._window(frame), frame)

    def close(self) -> None:
        """Release the model; a second call does nothing."""
        self._model.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        error_type: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self.close()


def _is_person(pose: Pose, frame: Frame) -> bool:
    height_px, width_px = frame.picture_bgr.shape[:2]
    return plausible(pose, (width_px, height_px))
