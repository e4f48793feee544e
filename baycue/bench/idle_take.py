"""Show the program one idle clip and keep what it said; no refusal hides a swing."""

import shutil
import tempfile
import time
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from baycue.bench.coach import plan_for
from baycue.bench.idle_population import IdleClip, IdleDraw, idle_clip
from baycue.bench.idle_record import IdleRecord
from baycue.bench.idle_render import frame_count, idle_frames
from baycue.bench.render import CRF
from baycue.capture.clip_writer import ClipWriter
from baycue.capture.frame import Frame
from baycue.capture.recording import RecordingSource
from baycue.glimpse import Glimpse, glimpses
from baycue.pose.landmarker import MediaPipePose
from baycue.spine import FinishedSwing, swing_news


@dataclass(slots=True)
class _Watch:
    """Counts the glimpses that go by."""

    clip: IdleClip
    now_ns: int = 0
    golfer_frames: int = 0
    seen_frames: int = 0
    seen_with_golfer: int = 0

    def passing(self, seen: Iterable[Glimpse]) -> Iterator[Glimpse]:
        for glimpse in seen:
            self.now_ns = glimpse.stamp_ns
            there = golfer_in_picture(self.clip, glimpse.stamp_ns * 1e-9)
            self.golfer_frames += there
            self.seen_frames += glimpse.pose is not None
            self.seen_with_golfer += there and glimpse.pose is not None
            yield glimpse


def take_idle(one: IdleDraw, clips: Path | None = None) -> IdleRecord:
    """One clip, from draw to record; ``clips`` as in ``shown``.

    The spine is asked itself, below the whole recording's refusals of company and of a picture
    with nobody in it, so that every swing that it tells of counts, judged or not.
    """
    started, clip = time.perf_counter(), idle_clip(one)
    watch = _Watch(clip)
    with shown(one, clips) as frames, MediaPipePose() as estimator:
        seen = watch.passing(glimpses(frames, estimator))
        told = [
            watch.now_ns * 1e-9
            for news in swing_news(seen, plan_for(one.drawn))
            if not isinstance(news, FinishedSwing)
        ]
    return IdleRecord(
        drawn=one,
        frames=frame_count(clip),
        golfer_frames=watch.golfer_frames,
        seen_frames=watch.seen_frames,
        seen_with_golfer=watch.seen_with_golfer,
        swings_at_s=tuple(round(at_s, 3) for at_s in told),
        took_s=round(time.perf_counter() - started, 1),
    )


@contextmanager
def shown(one: IdleDraw, clips: Path | None) -> Iterator[Iterable[Frame]]:
    """The frames of a clip as they are drawn, or from its file in ``clips``, made if missing.

    As with the bench's clips, nothing checks that a kept file was drawn by the code as it is.
    """
    if clips is None:
        yield idle_frames(idle_clip(one))
        return
    kept = clips / f"idle-{one.drawn.seed}-{one.number:03d}.mp4"
    if not kept.exists():
        kept.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix="bench-") as folder:
            keep_clip(one, Path(folder) / "new.mp4")
            shutil.move(Path(folder) / "new.mp4", kept)
    with RecordingSource(kept) as source:
        yield source


def golfer_in_picture(clip: IdleClip, time_s: float) -> bool:
    """Whether a golfer is in the bay and the pelvis in the picture."""
    bones, camera = clip.motion.moment_at(time_s).bones, clip.shot.camera
    if bones is None:
        return False
    pelvis_px = clip.shot.picture_px(bones[clip.motion.body.bone("pelvis"), :3, 3][None])[0]
    return bool(0 <= pelvis_px[0] < camera.width_px and 0 <= pelvis_px[1] < camera.height_px)


def keep_clip(one: IdleDraw, path: Path) -> None:
    """Write an idle clip, to see what was taken for a swing; OutputError if it exists."""
    clip = idle_clip(one)
    camera = clip.shot.camera
    path.parent.mkdir(parents=True, exist_ok=True)
    with ClipWriter(path, camera.width_px, camera.height_px, crf=CRF) as writer:
        for frame in idle_frames(clip):
            writer.write(frame)
