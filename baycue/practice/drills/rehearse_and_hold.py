"""Slowly down to a checkpoint, and held there; guided all the way by a tone."""

from baycue.practice.drill import Drill, Ends

DRILL = Drill(
    name="rehearse and hold",
    ends=Ends.HOLD,
    told="Go there slowly, without a ball. The tone beats while you are off and steadies when you "
    "are there.",
    cautions=("Move slowly; rest as soon as back or wrists tire.",),
    has_ball=False,
)
