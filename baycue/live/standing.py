"""How a live session stands, as it is kept, and back again."""

from baycue.keep.keeper import Keeper
from baycue.keep.standing import PracticePlace, Standing
from baycue.live.tally import Tally


def standing_of(number: int, tally: Tally, places: tuple[PracticePlace, ...]) -> Standing:
    """``number``: of the last swing seen."""
    return Standing(number, tally.balls, tally.passes, tally.run_of_passes, tally.practice, places)


def tally_of(standing: Standing) -> Tally:
    """The counts to go on from."""
    return Tally(standing.balls, standing.passes, standing.run_of_passes, standing.practice_swings)


class StandingKept:
    """Has it kept whenever it has changed; ``stood``: as the session began."""

    def __init__(self, keeper: Keeper, stood: Standing) -> None:
        self._keeper, self._stood = keeper, stood

    def look(self, student: str, stands: Standing) -> None:
        """How it stands now; ``student``: whose plan is on."""
        begun = stands.number or any(place.number for place in stands.places)
        if begun and stands != self._stood:
            self._stood = stands
            self._keeper.stands(student, stands)
