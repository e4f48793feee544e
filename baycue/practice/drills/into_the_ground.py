"""The club driven down into soft ground and left there: into the ground first, through later."""

from baycue.practice.drill import Drill, Ends

DRILL = Drill(
    name="into the ground",
    ends=Ends.GROUND,
    told="No ball. Drive the club down into the soft patch where the ball would be, and stop "
    "there: no follow-through.",
    cautions=(
        "Only on turf, sand or a thick impact pad: a hard mat or floor jars wrists, elbows and "
        "back and can break the club.",
        "Begin gently. Not with a sore wrist, elbow or back.",
        "Ask the facility whether clubs may go into its ground.",
    ),
    has_ball=False,
)
