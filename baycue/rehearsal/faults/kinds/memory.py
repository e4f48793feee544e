"""Memory that runs short, and out."""

import time

from baycue.cues.stopped_page import draw_stopped
from baycue.rehearsal.faults.bay import LIMIT_S, Bay, BaySettings
from baycue.rehearsal.faults.display import same_headline, shown_by
from baycue.rehearsal.faults.fault import Fault
from baycue.rehearsal.faults.kinds.process import one_session, scoring_pid, until_kept
from baycue.rehearsal.faults.memory import limit_memory

_TAKEN_MB = 100
"""So much less than it holds: nothing new may be asked for, until it has given that back."""
_SHOWN_S = 20.0


def _take(bay: Bay) -> None:
    until_kept(bay)
    limit_memory(bay.live.pid, -_TAKEN_MB)


def _take_from_scoring(bay: Bay) -> None:
    limit_memory(scoring_pid(bay), -_TAKEN_MB // 2)


def _start_again(bay: Bay) -> None:
    assert bay.live.ends_by_itself(LIMIT_S), "its end was told, and it goes on"
    bay.start_live()


def _says_stopped(bay: Bay) -> str:
    """Whether the window, which has outlived the session, says so."""
    until, wanted = time.monotonic() + _SHOWN_S, shown_by(draw_stopped)
    while not same_headline(bay.display.picture(), wanted):
        if time.monotonic() > until:
            return "the screen does not say that the session has stopped"
        time.sleep(0.2)
    return ""


FAULTS = (
    Fault(
        "memory-gone",
        f"the session is to do with {_TAKEN_MB} MB less than it holds; then it is started again",
        _take,
        _start_again,
        told="the session ended by itself|no memory is left",
        told_again="the session goes on where it was cut off",
        settings=BaySettings(display=True),
        seen=_says_stopped,
        after=one_session,
    ),
    Fault(
        "memory-gone-for-scoring",
        f"the scoring process is to do with {_TAKEN_MB // 2} MB less than it holds",
        _take_from_scoring,
        told="the scoring process",
    ),
)
