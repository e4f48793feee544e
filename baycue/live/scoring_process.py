"""The process in which swings are scored, so that nothing else holds the scoring up."""

import signal
from collections import deque
from dataclasses import dataclass
from multiprocessing.connection import Connection

from baycue.live.cut_off import CUT_OFF
from baycue.live.desk import Desk, Expected, Shown, Struck
from baycue.live.post import Receiver
from baycue.live.promptness import be_prompt
from baycue.live.reply import Reply, packed
from baycue.measures.catalogue import measures
from baycue.plan.plan import Plan
from baycue.process_name import call_this_process
from baycue.swing.events import FinishSeen, ThroughSeen


@dataclass(frozen=True, slots=True)
class NewPlan:
    """By which swings are judged from the next glimpse on."""

    plan: Plan


@dataclass(frozen=True, slots=True)
class GoneOn:
    """The last swing has gone on, in the last glimpse shown."""

    event: ThroughSeen | FinishSeen


Message = NewPlan | Shown | Expected | Struck | GoneOn


def serve(wire: Connection) -> None:
    """Do as the messages say until None comes; the process's main function."""
    # Ctrl-C goes to every process of a terminal; this one ends when its parent says so.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    call_this_process("baycue scoring")
    measures()  # found and imported now, not at the first strike
    be_prompt()
    server = _Server(wire)
    try:
        while server.goes_on():
            pass
    except (EOFError, OSError):  # the parent has died, and can say so no more
        print(CUT_OFF, flush=True)
    except MemoryError:
        return  # the parent says so, and starts another process


class _Server:
    """Reads what came even while it looks early; only what is urgent calls it away."""

    def __init__(self, wire: Connection) -> None:
        self._wire, self._post = wire, Receiver(wire)
        self._unheeded: deque[Message | None] = deque()
        self._desk = Desk(overtaken=self._urgent)
        self._plan: Plan | None = None

    def goes_on(self) -> bool:
        """Heed what came; while nothing comes look early.  False at the end."""
        while self._desk.can_look and not self._unheeded and not self._post.poll():
            self._desk.look()
        message = self._unheeded.popleft() if self._unheeded else self._post.recv()
        if message is not None:
            self._heed(message)
        return message is not None

    def _urgent(self) -> bool:
        while self._post.poll():
            self._unheeded.append(self._post.recv())
        return any(_is_urgent(message) for message in self._unheeded)

    def _heed(self, message: Message) -> None:
        if isinstance(message, NewPlan):
            self._plan = message.plan
        elif isinstance(message, Shown):
            assert self._plan is not None, "a plan comes before all glimpses"
            self._desk.take(message, self._plan)
        elif isinstance(message, Expected):
            self._desk.expect(message)
        elif isinstance(message, Struck):
            self._answer(self._desk.score(message))
        else:
            self._answer(self._desk.after(message.event))

    def _answer(self, reply: Reply | None) -> None:
        if reply is not None:
            self._wire.send(packed(reply))


def _is_urgent(message: Message | None) -> bool:
    """Whether somebody waits for it, or will soon."""
    if isinstance(message, Expected):
        return message.ends
    return not isinstance(message, Shown | NewPlan)
