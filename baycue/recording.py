"""A whole recording through the spine, with what can be said of it as a recording."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from baycue.capture.frame import Frame
from baycue.capture.prefetch import Prefetch
from baycue.capture.recording import RecordingSource
from baycue.errors import CompanyError, FeetCutOffError, NobodySeenError, SceneError
from baycue.find_ruler import board_watch
from baycue.glimpse import Glimpse, glimpses
from baycue.plan.plan import Plan
from baycue.pose.bystanders import people_in, share_with_company
from baycue.pose.estimator import PoseEstimator
from baycue.pose.framing import BodyPart, parts_cut_off
from baycue.pose.landmarker import MediaPipePose
from baycue.report.blur import Head, head_of
from baycue.spine import (
    FinishedSwing,
    ScoredSwing,
    SwingNews,
    UnscorableSwing,
    swing_news,
)

_GLIMPSES_AHEAD = 90
"""Poses found while one swing is being scored; each holds a quarter of a megabyte at 720p."""
_SAMPLED_SHARES = (0.02, 0.25, 0.5, 0.75, 0.98)
_COMPANY_SHARE = 0.6
"""Somebody seen standing in one place in this share of the samples stays there."""

_LEAST_SEEN_SHARE = 0.1
_MOSTLY = 0.5

OnFrame = Callable[[int], None]


@dataclass(frozen=True, slots=True)
class ScoredRecording:
    """What a recording showed: its swings, and facts of the file as read.

    ``heads``: where the golfer's lay, by the frame's index, for ``--blur-faces``.
    """

    frames: int
    dropped_frames: int
    fps: float
    golfer_frames: int
    swings: tuple[ScoredSwing, ...]
    heads: Mapping[int, Head] = field(default_factory=dict)


def score_recording(path: Path, plan: Plan, on_frame: OnFrame | None = None) -> ScoredRecording:
    """Score every swing in a recording.

    ``on_frame`` is told how many frames are done.  Raises RecordingError for a file that
    cannot be used and SceneError for a picture that cannot be judged: nobody in it, more
    than one person, feet cut off, the swing going the other way.
    """
    with RecordingSource(path) as source, MediaPipePose() as estimator:
        kept = _Samples({round(share * (source.frame_count - 1)) for share in _SAMPLED_SHARES})
        try:
            tally, swings = score_frames(path.name, kept.passing(source), estimator, plan, on_frame)
        except SceneError:
            refuse_company(path.name, kept.frames)  # the likelier cause, if there is any
            raise
        refuse_company(path.name, kept.frames)
        facts = tally.frames, source.dropped_frames, source.nominal_fps, tally.golfer_frames
        return ScoredRecording(*facts, swings, tally.heads)


@dataclass(slots=True)
class _Samples:
    """Keeps a few of the frames that go by."""

    wanted: set[int]
    frames: list[Frame] = field(default_factory=list)

    def passing(self, frames: Iterable[Frame]) -> Iterator[Frame]:
        for frame in frames:
            if frame.index in self.wanted:
                self.frames.append(frame)
            yield frame


def score_frames(
    name: str,
    frames: Iterable[Frame],
    estimator: PoseEstimator,
    plan: Plan,
    on_frame: OnFrame | None = None,
) -> tuple["FrameTally", tuple[ScoredSwing, ...]]:
    """Score every swing in frames that end; raises SceneError as ``score_recording``."""
    tally = FrameTally()
    # Poses are found one thread ahead, so that a swing's club work does not hold them up.
    watch = board_watch(plan)
    ahead = Prefetch(
        lambda: glimpses(frames, estimator, watch), _GLIMPSES_AHEAD, f"poses of {name}"
    )
    try:
        swings = _collect(name, swing_news(tally.counted(ahead, on_frame), plan))
    finally:
        ahead.close()
    if not swings:
        _refuse_unseen(name, tally)
    return tally, swings


@dataclass(slots=True)
class FrameTally:
    """Frames gone by: all, those with a golfer, and those with the golfer's feet cut off.

    ``heads``: the golfer's, by the frame's index.
    """

    frames: int = 0
    golfer_frames: int = 0
    footless_frames: int = 0
    heads: dict[int, Head] = field(default_factory=dict)

    def counted(self, seen: Iterable[Glimpse], on_frame: OnFrame | None) -> Iterator[Glimpse]:
        """Count each glimpse and hand it on."""
        for glimpse in seen:
            self.frames += 1
            self.golfer_frames += glimpse.pose is not None
            self.footless_frames += _feet_cut_off(glimpse)
            if glimpse.pose is not None:
                self.heads[glimpse.pose.frame_index] = head_of(glimpse.pose)
            if on_frame:
                on_frame(self.frames)
            yield glimpse


def _feet_cut_off(seen: Glimpse) -> bool:
    if seen.pose is None:
        return False
    return BodyPart.FEET in parts_cut_off(seen.pose, seen.width_px, seen.height_px)


def _collect(name: str, news: Iterable[SwingNews]) -> tuple[ScoredSwing, ...]:
    """The swings by number, each in its latest version."""
    latest: dict[int, ScoredSwing] = {}
    for item in news:
        if isinstance(item, UnscorableSwing):
            raise SceneError(f"{name}: swing {item.number} cannot be judged: {item.reason}")
        scored = item.scored if isinstance(item, FinishedSwing) else item
        latest[scored.verdict.swing_number] = scored
    return tuple(latest.values())


def _refuse_unseen(name: str, tally: FrameTally) -> None:
    """SceneError if no swing could have been found, because too little of the golfer shows."""
    if tally.golfer_frames < _LEAST_SEEN_SHARE * tally.frames:
        raise NobodySeenError(
            f"{name}: nobody is seen in it; point the camera so that the whole golfer shows, "
            "from head to feet"
        )
    if tally.footless_frames > _MOSTLY * tally.golfer_frames:
        raise FeetCutOffError(
            f"{name}: no swing can be found, for the golfer's feet are cut off by the "
            "picture's edge; tilt the camera down or move it back until both feet show"
        )


def refuse_company(name: str, samples: Sequence[Frame]) -> None:
    """SceneError if a second person stays in the picture through most of the samples."""
    if share_with_company(people_in(samples)) >= _COMPANY_SHARE:
        raise CompanyError(
            f"{name}: two people are in the picture; only the golfer may be in it, "
            "and nobody may stand within the club's reach"
        )
