"""What is kept of every frame, also of those the pose model has no time for."""

from dataclasses import dataclass

from baycue.capture.frame import Frame
from baycue.club.background import GreyPicture, shrink_to_grey
from baycue.club.scenes import SHRINK


@dataclass(frozen=True, slots=True)
class Still:
    """The small grey picture of one frame, which is all that the club is looked for in."""

    index: int
    stamp_ns: int
    grey: GreyPicture

    @property
    def nbytes(self) -> int:
        """Memory held, bytes."""
        return self.grey.nbytes


def still_of(frame: Frame) -> Still:
    """Shrink a frame."""
    return Still(frame.index, frame.stamp_ns, shrink_to_grey(frame.picture_bgr, SHRINK))
