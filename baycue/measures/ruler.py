"""A thing of known length in the bay, as the plan tells of it and the picture shows it."""

from dataclasses import dataclass

from baycue.bay.board import BoardSeen
from baycue.bay.stick import StickSeen
from baycue.plan.camera_facts import ScaleBy


@dataclass(frozen=True, slots=True)
class Ruler:
    """``by``: what the plan asks for; ``board`` or ``stick``: what was seen of it, if anything.

    ``printed_share``: how large the board was printed, 1 is true to size.
    ``stick_in_front_m``: of the toes; None if the plan does not say.
    Both lie where a level camera would have seen them.
    """

    by: ScaleBy = ScaleBy.STATURE
    board: BoardSeen | None = None
    printed_share: float = 1.0
    stick: StickSeen | None = None
    stick_length_m: float = 1.0
    stick_in_front_m: float | None = None


NO_RULER = Ruler()
"""Scale by stature alone."""
