"""The seam to a camera: something that gives one picture after another."""

from collections.abc import Callable
from typing import Protocol

from baycue.capture.shot import Content


class Feed(Protocol):
    """An opened camera, read by one thread."""

    def read(self) -> Content:
        """The next picture, as soon as there is one.

        Raises CameraError if the camera fails or stays silent for some seconds, and
        FeedEndedError where there is no more.
        """

    def close(self) -> None:
        """Let go of the camera; a second call does nothing."""

    def describe(self) -> str:
        """One line on what was really got, not on what was asked for."""


OpenFeed = Callable[[], Feed]
"""Opens a camera, again after it was lost; raises CameraError."""
