"""The same swing with the ball sent under a low cane set up in front."""

from baycue.practice.drill import Drill, Ends

DRILL = Drill(
    name="under a low cane",
    ends=Ends.STRIKE,
    told="The same swing; send the ball under the cane.",
    cautions=(
        "The cane stands well beyond the club's reach, soft or blunt, and nothing behind it can "
        "send the ball back.",
        "A ball off the cane can come back: nobody in front or beside, eyes protected.",
    ),
    has_ball=True,
)
