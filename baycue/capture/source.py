"""The seam where frames enter: recordings today, a live camera the same way."""

from collections.abc import Iterator
from types import TracebackType
from typing import Protocol, Self

from baycue.capture.frame import Frame


class FrameSource(Protocol):
    """Frames in order of time, from a recording or a camera.

    Stamps strictly increase.  ``nominal_fps`` is measured, never the rate asked for.
    ``dropped_frames`` counts frames that were taken but not handed out.
    """

    @property
    def width_px(self) -> int:
        """Width of every picture, px."""

    @property
    def height_px(self) -> int:
        """Height of every picture, px."""

    @property
    def nominal_fps(self) -> float:
        """Frames a second, from the intervals between stamps."""

    @property
    def dropped_frames(self) -> int:
        """Frames not handed out so far."""

    def __iter__(self) -> Iterator[Frame]:
        """Yield the frames, raising ``RecordingError`` where the source fails."""

    def close(self) -> None:
        """Stop and release the source; a second call does nothing."""

    def __enter__(self) -> Self:
        """Return the source itself."""

    def __exit__(
        self,
        error_type: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        """Close the source."""
