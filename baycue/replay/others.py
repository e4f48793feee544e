"""The swings that one may be compared with, walked through one by one."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from baycue.errors import BaycueError
from baycue.replay.align import aligned
from baycue.replay.film import SwingFilm
from baycue.replay.showing import Showing


@dataclass(frozen=True, slots=True)
class Other:
    """A swing by its name, read from the disk when it is wanted: ``film`` may raise BaycueError."""

    name: str
    film: Callable[[], SwingFilm]


@dataclass(frozen=True, slots=True)
class Others:
    """The coach's reference first, if there is one, then earlier swings, the newest first.

    ``at``: the one that is shown; -1 for none.
    """

    all_of_them: tuple[Other, ...] = ()
    at: int = -1

    def walked(self, by: int) -> "Others":
        """So many further back, or nearer if negative; the ends are the ends."""
        if not self.all_of_them:
            return self
        return replace(self, at=min(max(self.at + by, 0), len(self.all_of_them) - 1))


NO_OTHERS = Others()


def beside(showing: Showing, others: Others) -> Showing:
    """The swing with the chosen other one; alone, and why, if that cannot be shown."""
    if others.at < 0:
        return showing
    other = others.all_of_them[others.at]
    place = f"{other.name} ({others.at + 1} of {len(others.all_of_them)})"
    try:
        film = other.film()
        _refuse_strange(showing.film, film)
    except (BaycueError, ValueError) as error:
        return replace(showing, other=None, other_name=f"{place}: {error}")
    return replace(showing, other=film, other_name=place)


def walk(showing: Showing, others: Others, by: int) -> tuple[Showing, Others]:
    """What PageUp and PageDown do."""
    if not others.all_of_them:
        return replace(showing, other_name="no earlier swing of this student is kept"), others
    others = others.walked(by)
    return beside(showing, others), others


def _refuse_strange(film: SwingFilm, other: SwingFilm) -> None:
    """ValueError if the two cannot be compared."""
    ours, theirs = (f.scored.evidence.view for f in (film, other))
    if ours is not theirs:
        raise ValueError(f"was filmed {theirs.value}, this one {ours.value}")
    aligned(film.checkpoints_ns, other.checkpoints_ns)


def others_of(reference: Other | None, earlier: Sequence[Other]) -> Others:
    """With the reference on, if there is one; else none until it is asked for."""
    if reference is None:
        return Others(tuple(earlier))
    return Others((reference, *earlier), 0)
