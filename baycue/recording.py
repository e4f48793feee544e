"""A whole recording through the spine, with what can be said of it as a recording."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from baycue.capture.frame import Frame
from baycue.capture.prefetch import Prefetch
from baycue.capture.recording import RecordingSource
from baycue.capture.source import FrameSource
from baycue.errors import SceneError
from baycue.plan.plan import Plan
from baycue.pose.bystanders import count_people
from baycue.pose.estimator import PoseEstimator
from baycue.pose.landmarker import MediaPipePose
from baycue.spine import (
    FinishedSwing,
    Glimpse,
    ScoredSwing,
    SwingNews,
    UnscorableSwing,
    glimpses,
    swing_news,
)

_GLIMPSES_AHEAD = 8
_SAMPLED_SHARES = (0.1, 0.3, 0.5)
_CROWDED_SAMPLES = 2
_LEAST_SEEN_SHARE = 0.1

OnFrame = Callable[[int], None]


@dataclass(frozen=True, slots=True)
class ScoredRecording:
    """What a recording showed: its swings, and facts of the file as read."""

    frames: int
    dropped_frames: int
    fps: float
    golfer_frames: int
    swings: tuple[ScoredSwing, ...]


def score_recording(path: Path, plan: Plan, on_frame: OnFrame | None = None) -> ScoredRecording:
    """Score every swing in a recording.

    ``on_frame`` is told how many frames are done.  Raises RecordingError for a file that
    cannot be used and SceneError for a picture that cannot be judged: nobody in it, more
    than one person, feet cut off, the swing going the other way.
    """
    with RecordingSource(path) as source, MediaPipePose() as estimator:
        refuse_company(path, source)
        return score_source(path.name, source, estimator, plan, on_frame)


def score_source(
    name: str,
    source: FrameSource,
    estimator: PoseEstimator,
    plan: Plan,
    on_frame: OnFrame | None = None,
) -> ScoredRecording:
    """Score every swing of a source that ends; see ``score_recording``."""
    counter = _Counter(on_frame)
    # Poses are found one thread ahead, so that a swing's club work does not hold them up.
    ahead = Prefetch(lambda: glimpses(source, estimator), _GLIMPSES_AHEAD, f"poses of {name}")
    try:
        swings = _collect(name, swing_news(counter.counted(ahead), plan))
    finally:
        ahead.close()
    if counter.golfer_frames < _LEAST_SEEN_SHARE * counter.frames and not swings:
        raise SceneError(
            f"{name}: nobody is seen in it; point the camera so that the whole golfer shows"
        )
    return ScoredRecording(
        counter.frames, source.dropped_frames, source.nominal_fps, counter.golfer_frames, swings
    )


class _Counter:
    """Counts what goes by."""

    def __init__(self, on_frame: OnFrame | None) -> None:
        self.frames = 0
        self.golfer_frames = 0
        self._on_frame = on_frame

    def counted(self, seen: Iterable[Glimpse]) -> Iterator[Glimpse]:
        for glimpse in seen:
            self.frames += 1
            self.golfer_frames += glimpse.pose is not None
            if self._on_frame:
                self._on_frame(self.frames)
            yield glimpse


def _collect(name: str, news: Iterable[SwingNews]) -> tuple[ScoredSwing, ...]:
    """The swings by number, each in its latest version."""
    latest: dict[int, ScoredSwing] = {}
    for item in news:
        if isinstance(item, UnscorableSwing):
            raise SceneError(f"{name}: swing {item.number} cannot be judged: {item.reason}")
        scored = item.scored if isinstance(item, FinishedSwing) else item
        latest[scored.verdict.swing_number] = scored
    return tuple(latest.values())


def refuse_company(path: Path, source: RecordingSource) -> None:
    """SceneError if most of a few sampled frames show a second person.

    One who only walks through is left to the segmentation.
    """
    counts = count_people(_sampled(source))
    if sum(count > 1 for count in counts) >= _CROWDED_SAMPLES:
        raise SceneError(
            f"{path.name}: two people are in the picture; only the golfer may be in it, "
            "and nobody may stand within the club's reach"
        )


def _sampled(source: RecordingSource) -> list[Frame]:
    wanted = {round(share * source.frame_count) for share in _SAMPLED_SHARES}
    last = max(wanted)
    frames = []
    for frame in source:
        if frame.index in wanted:
            frames.append(frame)
        if frame.index >= last:
            break
    return frames
