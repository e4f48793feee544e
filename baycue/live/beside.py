"""Another swing beside the last one: chosen by key, read in a thread that gives way."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from baycue.errors import BaycueError
from baycue.keep.calm import give_way
from baycue.live.worker import Worker
from baycue.replay.film import SwingFilm
from baycue.replay.others import Other, Others, beside
from baycue.replay.showing import Showing

Offer = Callable[[], Sequence[Other]]
"""The swings that one may be compared with, in order; may read, and raise BaycueError."""

READING = "the other swing: being read"
NONE_KEPT = "no earlier swing by this plan is kept"


def nothing_offered() -> Sequence[Other]:
    """Where nothing is kept."""
    return ()


@dataclass(frozen=True, slots=True)
class _Choice:
    """The so-manyeth swing of those offered, from 0, to be shown beside one."""

    showing: Showing
    offer: Offer
    at: int


@dataclass(frozen=True, slots=True)
class _Found:
    choice: _Choice
    film: SwingFilm | None
    name: str
    others: Others | None


class Beside:
    """Which swing is shown beside the last one; nothing but ``close`` ever waits.

    Used by one thread; reads in another.
    """

    def __init__(self) -> None:
        self._choice: _Choice | None = None
        self._found: _Found | None = None
        self._worker: Worker[_Choice] = Worker(self._read, "earlier swings")

    def walk(self, showing: Showing, offer: Offer, by: int) -> None:
        """So many swings further back, or nearer if negative; the ends are the ends."""
        chosen, found = self._choice, self._found
        at = chosen.at if chosen else -1
        others = found.others if found and chosen and found.choice.offer is offer else None
        walked = replace(others, at=at).walked(by).at if others else max(at + by, 0)
        self._choice = _Choice(showing, offer, walked)
        self._worker.ask(self._choice)

    def beside(self, showing: Showing) -> Showing:
        """With the chosen swing, once it has been read; until then as it is, and says so."""
        chosen, found = self._choice, self._found
        if chosen is None:
            return showing
        if found is None or found.choice is not chosen:
            return replace(showing, other_name=READING)
        return replace(showing, other=found.film, other_name=found.name)

    def forget(self) -> None:
        """None is chosen any more; what is being read is let go of."""
        self._choice, self._found = None, None

    def close(self) -> None:
        """End the thread after what it reads now."""
        self._worker.close()

    def _read(self, chosen: _Choice) -> None:
        if self._choice is not chosen:
            return  # the next address came first
        give_way()
        others: Others | None = None
        try:
            others = Others(tuple(chosen.offer())).walked(chosen.at + 1)
            shown = beside(replace(chosen.showing, other=None), others)
            name = shown.other_name if others.all_of_them else NONE_KEPT
            found = _Found(chosen, shown.other, name, others)
        except (BaycueError, OSError) as error:
            found = _Found(chosen, None, f"earlier swings: {error}", others)
        # By what is chosen now, since another swing may have been told or chosen meanwhile.
        if self._choice is chosen:
            self._found = found
