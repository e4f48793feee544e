"""What the golfer sees of a session under way."""

from dataclasses import dataclass

from baycue.plan.practice_block import PracticeDrill
from baycue.practice.drill import EVERY_SWING_CAUTIONS, Ends
from baycue.practice.hold import Guidance
from baycue.practice.practice import Practice


@dataclass(frozen=True, slots=True)
class PracticeView:
    """``number`` of ``blocks``, from 1; ``done`` of ``goes`` in this one.

    ``told``: what the golfer does.  ``is_hold``: a go ends with a hold, and ``guidance`` says how
    near it is.  ``rest_s``: how long to rest still, whole seconds; None if there is no rest.
    ``is_next``: what comes next is to be shown now.  ``progress``: how the targets with a rule
    stand, once all is done.
    """

    title: str = ""
    number: int = 0
    blocks: int = 0
    done: int = 0
    goes: int = 0
    drill: str = ""
    told: str = ""
    cautions: tuple[str, ...] = ()
    is_hold: bool = False
    is_silent: bool = False
    guidance: Guidance | None = None
    rest_s: int | None = None
    is_next: bool = False
    is_over: bool = False
    progress: tuple[str, ...] = ()

    @property
    def place(self) -> str:
        """``block 2 of 4, 3 of 10 done``, short enough for the strip."""
        return f"block {self.number} of {self.blocks}, {self.done} of {self.goes} done"


def practice_view(
    practice: Practice,
    now_ns: int,
    guidance: Guidance | None = None,
    is_next: bool = False,
    progress: tuple[str, ...] = (),
) -> PracticeView:
    """What to show of a session at a time."""
    walk, kind, drill = practice.walk, practice.kind, practice.drill
    if walk.go is None or walk.block is None or kind is None or drill is None:
        return PracticeView(is_over=True, progress=progress)
    rest_ns = None if walk.rest_until_ns is None else max(walk.rest_until_ns - now_ns, 0)
    return PracticeView(
        title=walk.block.title,
        number=walk.go.block + 1,
        blocks=len(practice.walk.practice.blocks),
        done=walk.done_in_block,
        goes=walk.block.goes,
        drill=kind.name,
        told=told_of(drill),
        cautions=(*kind.cautions, *EVERY_SWING_CAUTIONS),
        is_hold=kind.ends is Ends.HOLD,
        is_silent=practice.is_silent,
        guidance=guidance,
        rest_s=None if rest_ns is None else -(-rest_ns // 1_000_000_000),
        is_next=is_next,
    )


def told_of(drill: PracticeDrill) -> str:
    """What the golfer does, with the drill's own checkpoint and time."""
    if drill.at is None or drill.hold is None:
        return drill.kind.told
    parallel = "lead arm parallel" if drill.arm_is_parallel else "shaft parallel"
    butt = ", butt at the buckle" if drill.butt_within else ""
    return f"To {drill.at.value}: {parallel}{butt}. {drill.kind.told} Hold {drill.hold:g} s."
