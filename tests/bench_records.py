"""Hand-made records of the bench: drawn as always, stated values as a test wants them."""

from dataclasses import replace
from functools import cache

from baycue.bench.coach import ASKED
from baycue.bench.population import Draw, draw
from baycue.bench.record import Record, Seen, Stated
from baycue.bench.staging import staged
from baycue.synthetic.truth import TrueSwing


@cache
def truth() -> TrueSwing:
    """The truth of one drawn swing; what it is does not matter here."""
    return staged(draw(1, 0)).truth


def record(
    number: int, late_s: float = 0.0, off: float = 0.0, sigma: float = 0.01, fps: float = 30.0
) -> Record:
    """A swing whose times are all stated ``late_s`` late and whose measures are ``off`` too big."""
    true = truth()
    seen = Seen(
        checkpoints_s={
            name: Stated(at_s + late_s, sigma) for name, at_s in true.checkpoints_s.items()
        },
        measures={asked.name: Stated(asked.truth(true) + off, sigma) for asked in ASKED},
        shaft_seen_share=1.0,
        decided_after_impact_s=0.09,
    )
    return Record(replace(draw(1, number), fps=fps), true, 1, seen, None, 1.0, 1.0)


def unseen(number: int) -> Record:
    """A swing that was not found."""
    return replace(record(number), swings_found=0, seen=None, error="nobody is seen in it")


def taken(drawn: Draw) -> Record:
    """Stands in for ``take``: no clip; number 2 breaks."""
    if drawn.number == 2:
        raise ValueError("number 2 breaks")
    return replace(record(drawn.number), draw=drawn)
