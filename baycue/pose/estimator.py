"""The seam between frames and poses."""

from typing import Protocol

from baycue.capture.frame import Frame
from baycue.pose.pose import Pose


class PoseEstimator(Protocol):
    """Finds the golfer's body, one frame after another in order of time."""

    def estimate(self, frame: Frame) -> Pose | None:
        """The body in this frame, or None if none was found.

        A pose is what the model believes; whether it is a person at all is for
        ``presence`` to say.
        """

    def close(self) -> None:
        """Release the model; a second call does nothing."""
