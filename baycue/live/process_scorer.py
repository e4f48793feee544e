"""Scoring in a process of its own, started again when it dies; no swing goes unscored."""

import multiprocessing
import queue
import threading
from multiprocessing.connection import Connection
from typing import TypeVar

from baycue.interrupts_held import interrupts_held
from baycue.live.desk import Desk, Expected, Scoring, Shown, Struck
from baycue.live.post import Sender
from baycue.live.scoring_process import GoneOn, Message, NewPlan, serve
from baycue.plan.plan import Plan
from baycue.spine import FinishedSwing
from baycue.swing.events import FinishSeen, ThroughSeen

Item = TypeVar("Item")

_PATIENCE_S = 3.0
"""A process that takes longer over one swing hangs."""
_CLOSES_S = 2.0


class ProcessScorer:
    """A ``Scorer`` whose work is done in another process.

    The glimpses of the last seconds are kept here too.  If the process dies or hangs, the swing
    is scored here, more slowly; a notice says so, and another process is started.
    """

    def __init__(self) -> None:
        self._desk = Desk()
        self._scored_here = False
        self._plan: Plan | None = None
        self._notices: queue.SimpleQueue[str] = queue.SimpleQueue()
        self._finished: queue.SimpleQueue[FinishedSwing] = queue.SimpleQueue()
        self._helper = _Helper(self._finished)

    @property
    def process_id(self) -> int | None:
        """Of the process at work now."""
        return self._helper.process_id

    def follow(self, shown: Shown, plan: Plan) -> None:
        """Send it over."""
        if self._helper.is_gone:
            self._start_again("ended by itself")
        if plan is not self._plan:
            self._plan = plan
            self._helper.send(NewPlan(plan))
        self._desk.take(shown, plan)
        self._helper.send(shown)

    def expect(self, expected: Expected) -> None:
        """Send it over."""
        self._helper.send(expected)

    def score(self, struck: Struck) -> Scoring:
        """The other process's answer, or if there is none our own."""
        self._helper.send(struck)
        scoring = self._helper.answer(_PATIENCE_S)
        self._scored_here = scoring is None
        if scoring is None:
            scoring = self._desk.score(struck)
            self._start_again(f"did not answer; swing {struck.number} was scored without it")
        return scoring

    def after(self, event: ThroughSeen | FinishSeen) -> None:
        """Send it over, unless the swing was scored here."""
        if not self._scored_here:
            self._helper.send(GoneOn(event))
        elif (finished := self._desk.after(event)) is not None:
            self._finished.put(finished)

    def finished(self) -> tuple[FinishedSwing, ...]:
        """Those that have come."""
        return _emptied(self._finished)

    def notices(self) -> tuple[str, ...]:
        """Of processes started again."""
        return _emptied(self._notices)

    def close(self) -> None:
        """End the process."""
        self._helper.close()

    def _start_again(self, why: str) -> None:
        self._helper.kill()
        self._notices.put(f"the scoring process {why}; another one was started")
        self._helper = _Helper(self._finished)
        if self._plan is not None:
            self._helper.send(NewPlan(self._plan))
        for shown in self._desk.shown:
            self._helper.send(shown)


class _Helper:
    """One process, with a thread that sends and one that receives: neither holds us up."""

    def __init__(self, finished: "queue.SimpleQueue[FinishedSwing]") -> None:
        # A fork would carry the pose model's and the sound card's threads' locks along.
        context = multiprocessing.get_context("spawn")
        self._wire, theirs = context.Pipe()
        self._process = context.Process(target=serve, args=(theirs,), name="scoring", daemon=True)
        with interrupts_held():
            self._process.start()
        theirs.close()
        self.is_gone = False
        self._outbox: queue.SimpleQueue[Message | None] = queue.SimpleQueue()
        self._answers: queue.SimpleQueue[Scoring | None] = queue.SimpleQueue()
        self._finished = finished
        for work, name in ((self._send_all, "to scoring"), (self._receive_all, "from scoring")):
            threading.Thread(target=work, args=(self._wire,), name=name, daemon=True).start()

    @property
    def process_id(self) -> int | None:
        """The process."""
        return self._process.pid

    def send(self, message: Message) -> None:
        """In order, soon."""
        self._outbox.put(message)

    def answer(self, patience_s: float) -> Scoring | None:
        """The next one; None if the process is gone or does not answer in time."""
        try:
            return None if self.is_gone else self._answers.get(timeout=patience_s)
        except queue.Empty:
            return None

    def close(self) -> None:
        """Ask the process to end."""
        self._outbox.put(None)
        self._process.join(_CLOSES_S)
        self.kill()

    def kill(self) -> None:
        """End the process whatever it does."""
        self._outbox.put(None)
        self._process.kill()
        self._process.join()

    def _send_all(self, wire: Connection) -> None:
        post = Sender(wire)
        try:
            while True:
                message = self._outbox.get()
                post.send(message)
                if message is None:
                    return
        except OSError:
            return  # the thread that receives notices too

    def _receive_all(self, wire: Connection) -> None:
        try:
            while True:
                reply = wire.recv().unpacked()
                box = self._answers if isinstance(reply, Scoring) else self._finished
                box.put(reply)
        except (EOFError, OSError):
            self.is_gone = True
            self._answers.put(None)


def _emptied(box: "queue.SimpleQueue[Item]") -> tuple[Item, ...]:
    return tuple(box.get() for _ in range(box.qsize()))
