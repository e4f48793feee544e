"""One look at each frame: who is there, and a small grey picture to look for the club in."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from baycue.bay.board import BoardSeen
from baycue.bay.board_watch import BoardWatch
from baycue.bay.paint_out import PaintOut
from baycue.capture.frame import Frame
from baycue.club.background import GreyPicture, shrink_to_grey
from baycue.club.scenes import SHRINK
from baycue.pose.choosing import is_same
from baycue.pose.estimator import PoseEstimator
from baycue.pose.pose import Pose
from baycue.pose.presence import Presence


@dataclass(frozen=True, slots=True)
class Glimpse:
    """What is remembered of one frame: its pose, if any, and a small grey picture.

    ``board``: the likeliest sighting of the scale board up to this frame, if it is looked for.
    """

    frame_index: int
    stamp_ns: int
    width_px: int
    height_px: int
    pose: Pose | None
    grey: GreyPicture
    board: BoardSeen | None = None


def small_grey(frame: Frame) -> GreyPicture:
    """The picture that the club is looked for in."""
    return shrink_to_grey(frame.picture_bgr, SHRINK)


def glimpses(
    frames: Iterable[Frame],
    estimator: PoseEstimator,
    watch: BoardWatch | None = None,
    grey_of: Callable[[Frame], GreyPicture] = small_grey,
) -> Iterator[Glimpse]:
    """Look at each frame once; a body that is no steady, plausible person is no pose.

    Whoever walks by is painted out first.  ``watch`` looks for the scale board now and then, in
    the whole picture.  ``grey_of``: gives a frame's ``small_grey``, perhaps from where it is kept.
    """
    presence, paint_out = Presence(), PaintOut()
    for frame in frames:
        height_px, width_px = frame.picture_bgr.shape[:2]
        pose = estimator.estimate(_painted(frame, paint_out))
        before, presence = presence, presence.after(frame.stamp_ns, pose, (width_px, height_px))
        golfer = pose if presence.golfer_present else None
        watch = watch.after(frame.stamp_ns, frame.picture_bgr) if watch else None
        board = watch.best if watch else None
        grey = grey_of(frame)
        yield Glimpse(frame.index, frame.stamp_ns, width_px, height_px, golfer, grey, board)
        # Whoever is to be told of a strike is told before the next frame is made ready for.
        paint_out = _after(paint_out, frame, before, presence)


def _painted(frame: Frame, paint_out: PaintOut) -> Frame:
    return replace(frame, picture_bgr=paint_out.shown(frame.stamp_ns, frame.picture_bgr))


def _after(paint_out: PaintOut, frame: Frame, before: Presence, presence: Presence) -> PaintOut:
    """One frame on; who stands elsewhere than was seen before may be another."""
    seen = presence.last if presence.last and presence.last.stamp_ns == frame.stamp_ns else None
    begins = presence.steady_since_ns == frame.stamp_ns
    # A head put on a passer is a jump that begins anew, at the very time the bay must be known.
    stays = begins and before.last and seen and is_same(seen, before.last)
    known = PaintOut() if begins and not stays else paint_out
    return known.after(frame.stamp_ns, frame.picture_bgr, seen)
