"""The last swing seen again on the live screen: what it needs of the world, and its keys."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from baycue.cues.keys import ReplayKey, ReplayPointed
from baycue.errors import BaycueError
from baycue.live.again import SwingAgain
from baycue.live.view_writer import ViewWriter
from baycue.replay.controls import EXPORTS
from baycue.replay.film import SwingFilm
from baycue.replay.others import Other, others_of

Earlier = Callable[[str, str, int], Sequence[Other]]
"""By student, plan's name and swing's number: the swings before it that were kept."""


def none_earlier(student: str, plan: str, number: int) -> Sequence[Other]:
    """Where nothing is kept."""
    return ()


@dataclass(frozen=True, slots=True)
class ReplayMeans:
    """Where views are written to, and what a swing may be compared with.

    ``reference``: the coach's, if there is one.  ``blur_faces``: of the views written.
    """

    out: Path = Path("baycue_output")
    earlier: Earlier = none_earlier
    reference: Other | None = None
    blur_faces: bool = False

    def others(self, student: str, plan: str, number: int) -> Sequence[Other]:
        """The coach's reference, then the swings kept before a swing; BaycueError if not readable.

        With a reference what cannot be read stands in its place, and says so when it is chosen.
        """
        if self.reference is None:
            return self.earlier(student, plan, number)
        try:
            earlier = self.earlier(student, plan, number)
        except BaycueError as error:
            earlier = (_unreadable(error),)
        return others_of(self.reference, earlier).all_of_them


def _unreadable(error: BaycueError) -> Other:
    def film() -> SwingFilm:
        raise error

    return Other("earlier swings", film)


def heed_replay(
    asked: ReplayKey | ReplayPointed, again: SwingAgain, writer: ViewWriter, now_ns: int
) -> None:
    """Do what a key or the mouse asks of the replay; nothing, if none plays."""
    if isinstance(asked, ReplayKey) and asked.code in EXPORTS:
        showing = again.view(now_ns)
        if showing is not None:
            writer.ask(showing, EXPORTS[asked.code], now_ns)
    else:
        again.heed(asked, now_ns)
