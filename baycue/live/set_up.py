"""The set-up check at the start of a session, and when it is over."""

import threading
from collections import deque
from dataclasses import dataclass, field

from baycue.capture.frame import Frame
from baycue.glimpse import Glimpse
from baycue.live.view import Stage
from baycue.live.worker import Worker
from baycue.plan.plan import Plan
from baycue.pose.bystanders import people_in
from baycue.setup.check import SetUpExtras, SetUpWatch
from baycue.setup.report import SetUpReport

_STANDS_NS = 2_000_000_000
_REPORT_EVERY_NS = 500_000_000
_PEOPLE_EVERY_NS = 2_000_000_000
_SAMPLES = 3


@dataclass(frozen=True, slots=True)
class Readiness:
    """The newest report, and since when there has been nothing to mend."""

    report: SetUpReport | None = None
    go_since_ns: int | None = None

    def after(self, report: SetUpReport | None, stamp_ns: int) -> "Readiness":
        """One report on; None if too little was seen for one."""
        if report is None or not report.ready:
            return Readiness(report)
        since_ns = stamp_ns if self.go_since_ns is None else self.go_since_ns
        return Readiness(report, since_ns)

    def is_over(self, stamp_ns: int, golfer: Stage) -> bool:
        """Whether go has stood for two seconds, or the golfer swings and nothing says no."""
        if golfer is Stage.SWING:
            return self.report is None or self.report.ready
        return self.go_since_ns is not None and stamp_ns - self.go_since_ns >= _STANDS_NS


@dataclass(frozen=True, slots=True)
class _Task:
    watch: SetUpWatch
    stamp_ns: int
    plan: Plan
    frames: tuple[Frame, ...]


@dataclass(slots=True)
class _Samples:
    """A picture every half second, the last three."""

    frames: deque[Frame] = field(default_factory=lambda: deque(maxlen=_SAMPLES))

    def take(self, frame: Frame) -> bool:
        """Whether it was time for the next one."""
        is_time = not self.frames or frame.stamp_ns >= self.frames[-1].stamp_ns + _REPORT_EVERY_NS
        if is_time:
            self.frames.append(frame)
        return is_time


class SetUpCheck:
    """Reports on what the analysis sees, in a thread of its own, until the set-up is over.

    ``take`` is called by the analysis; ``go_on`` by whoever has had enough of it.
    """

    def __init__(self) -> None:
        self._over = threading.Event()
        self._watch, self._samples = SetUpWatch(), _Samples()
        self._readiness = Readiness()
        self._people: SetUpExtras | None = None
        self._people_ns = 0
        self._worker: Worker[_Task] = Worker(self._look, "set-up check")

    @property
    def is_over(self) -> bool:
        """Whether swings are to be judged."""
        return self._over.is_set()

    @property
    def report(self) -> SetUpReport | None:
        """The newest, None while too little was seen."""
        return self._readiness.report

    @property
    def error(self) -> Exception | None:
        """What went wrong in a check."""
        return self._worker.error

    def take(self, glimpse: Glimpse, frame: Frame, golfer: Stage, plan: Plan) -> None:
        """Look at one more frame."""
        self._watch = self._watch.after(glimpse)
        if self._samples.take(frame):
            frames = tuple(self._samples.frames)
            self._worker.ask(_Task(self._watch, glimpse.stamp_ns, plan, frames))
        if self._readiness.is_over(glimpse.stamp_ns, golfer):
            self.go_on()

    def go_on(self) -> None:
        """Judge swings from now on, whatever the report says."""
        self._over.set()
        self._watch, self._samples = SetUpWatch(), _Samples()

    def start_anew(self) -> None:
        """A picture of another size: what was seen before counts no more."""
        self._watch, self._samples = SetUpWatch(), _Samples()

    def again(self) -> None:
        """Check once more, as at the start: the camera was moved, or somebody else stands there."""
        self.start_anew()
        self._readiness, self._people, self._people_ns = Readiness(), None, 0
        self._over.clear()

    def close(self) -> None:
        """End the thread."""
        self._worker.close()

    def _look(self, task: _Task) -> None:
        report = task.watch.report(task.plan, self._people)
        self._readiness = self._readiness.after(report, task.stamp_ns)
        due = task.stamp_ns - self._people_ns >= _PEOPLE_EVERY_NS
        if due and report is not None and len(task.frames) == _SAMPLES:
            self._people_ns = task.stamp_ns
            self._people = SetUpExtras(people_in(task.frames))
