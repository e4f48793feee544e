"""How a live session stands, as it is kept, and back again."""

from baycue.keep.standing import PracticePlace, Standing
from baycue.live.tally import Tally


def standing_of(number: int, tally: Tally, places: tuple[PracticePlace, ...]) -> Standing:
    """``number``: of the last swing seen."""
    return Standing(number, tally.balls, tally.passes, tally.run_of_passes, tally.practice, places)


def tally_of(standing: Standing) -> Tally:
    """The counts to go on from."""
    return Tally(standing.balls, standing.passes, standing.run_of_passes, standing.practice_swings)
