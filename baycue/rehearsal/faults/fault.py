"""A fault: what is done, what is to be told of it, and how it is undone."""

from collections.abc import Callable
from dataclasses import dataclass, field

from baycue.rehearsal.faults.bay import Bay, BaySettings

Deed = Callable[[Bay], None]


def nothing(bay: Bay) -> None:
    """There is nothing to do."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault in the middle of a session.

    ``done``: in plain words, for the table.  ``strike`` does it, ``mend`` undoes it.
    ``told``: a pattern of the line that the golfer must get while it lasts; empty: verdicts must go
    on.  ``told_again``: of the line that says it is over.  ``settings``: what the bay must have.
    ``seen``: what is wrong while it lasts with something else, such as the words on the screen;
    ``after``: with something when it is over.  ``kept_is_hurt``: it damages what was kept, so what
    the check afterwards finds counts only if it is still so after a repair.  ``from_the_start``: it
    is there before any swing.  ``ends``: the session is to end by it.
    """

    name: str
    done: str
    strike: Deed
    mend: Deed = nothing
    told: str = ""
    told_again: str = ""
    settings: BaySettings = field(default_factory=BaySettings)
    seen: Callable[[Bay], str] | None = None
    after: Callable[[Bay], str] | None = None
    kept_is_hurt: bool = False
    from_the_start: bool = False
    ends: bool = False
