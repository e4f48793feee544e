"""Slowly down to a checkpoint, and held there; guided all the way by a tone."""

from baycue.practice.drill import Drill, Ends

DRILL = Drill(
    name="rehearse and hold",
    ends=Ends.HOLD,
    told="Go slowly to the checkpoint. The tone beats while you are off and steadies when you are "
    "there: hold it.",
    cautions=("No ball. Move slowly; rest as soon as back or wrists tire.",),
    has_ball=False,
)
