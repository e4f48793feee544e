"""Does the live loop keep up and stay flat?  Measured over minutes at 60 frames a second."""

import threading
import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from baycue.capture.camera import LiveCamera
from baycue.capture.opening import open_address
from baycue.live.answers import Means
from baycue.live.feedback import FeedbackMode
from baycue.live.plans import TargetSet
from baycue.live.process_scorer import ProcessScorer
from baycue.live.screen import NoScreen
from baycue.live.session import Session
from baycue.live.silence import Silence
from baycue.plan.plan import Plan
from baycue.pose.landmarker import MediaPipePose
from baycue.rehearsal.camera_process import CameraProcess, served_clip
from baycue.rehearsal.slope import Slope, slope

_SETTLED_SHARE = 0.2


@dataclass(frozen=True, slots=True)
class Sample:
    """One look: seconds since the start, resident memory of both processes, poses so far."""

    at_s: float
    resident_mb: float
    poses: int


@dataclass(frozen=True, slots=True)
class Endurance:
    """What the run gave.  ``sent`` and ``read``: frames by the camera and into the ring."""

    samples: tuple[Sample, ...]
    sent: int
    read: int
    damaged: int
    times_opened: int
    swings: int

    @property
    def lost(self) -> int:
        """Frames that were sent and are not in the ring; the last one may be under way."""
        return max(self.sent - self.read - 1, 0)

    @property
    def poses_a_second(self) -> float:
        """Over the settled part of the run."""
        first, last = settled(self.samples)[0], self.samples[-1]
        return (last.poses - first.poses) / (last.at_s - first.at_s)

    @property
    def peak_mb(self) -> float:
        """The most memory seen."""
        return max(s.resident_mb for s in self.samples)

    @property
    def growth(self) -> Slope:
        """Of memory over the settled part, MB an hour."""
        samples = settled(self.samples)
        return slope([s.at_s for s in samples], [s.resident_mb for s in samples])


def settled(samples: Sequence[Sample]) -> Sequence[Sample]:
    """The samples after the first fifth, in which buffers fill."""
    return samples[int(_SETTLED_SHARE * len(samples)) :]


@dataclass(slots=True)
class _Looks:
    samples: list[Sample] = field(default_factory=list)
    sent: int = 0
    read: int = 0


def endure(clip: Path, plan: Plan, minutes: float) -> Endurance:
    """Show a clip over and over for so long, silent and dark."""
    with served_clip(clip) as shown, MediaPipePose() as estimator:
        camera = LiveCamera(lambda: open_address(shown.url))
        means = Means(Silence(), NoScreen(), lambda line: None)
        sets, scorer = [TargetSet("endurance", plan)], ProcessScorer()
        session = Session(camera, estimator, sets, means, FeedbackMode(), scorer=scorer)
        looks = _Looks()
        watcher = threading.Thread(
            target=_watch, args=(session, camera, shown, scorer, minutes, looks), daemon=True
        )
        watcher.start()
        session.run()
        watcher.join()
        status = camera.status()
    return Endurance(
        tuple(looks.samples),
        looks.sent,
        looks.read,
        session.darkroom.damaged,
        status.times_opened,
        session.analysis.swings,
    )


def _watch(
    session: Session,
    camera: LiveCamera,
    shown: CameraProcess,
    scorer: ProcessScorer,
    minutes: float,
    looks: _Looks,
) -> None:
    start = time.monotonic()
    while (at_s := time.monotonic() - start) < 60 * minutes:
        held_mb = resident_mb("self") + resident_mb(scorer.process_id)
        looks.samples.append(Sample(at_s, held_mb, session.analysis.poses))
        time.sleep(1.0)
    # The count read last is the larger, so that nothing can seem lost that is not.
    looks.sent = len(shown.sent_ns)
    time.sleep(0.2)
    looks.read = camera.status().frames
    session.stop()


def resident_mb(process: int | str | None) -> float:
    """Memory a process holds now, MB (Linux; elsewhere 0)."""
    try:
        pages = int(Path(f"/proc/{process}/statm").read_text().split()[1])
    except OSError:
        return 0.0
    return pages * 4096 / (1 << 20)
