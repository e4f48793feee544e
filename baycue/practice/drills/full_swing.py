"""The whole swing at a ball."""

from baycue.practice.drill import Drill, Ends

DRILL = Drill(
    name="full swing",
    ends=Ends.STRIKE,
    told="A full swing at the ball.",
    cautions=(),
    has_ball=True,
)
