"""What a session is made of, in the order in which a swing passes through."""

from dataclasses import dataclass

from baycue.capture.camera import LiveCamera
from baycue.keep.keeper import Keeper
from baycue.live.again import SwingAgain
from baycue.live.analysis import Analysis
from baycue.live.answers import Answers, Means
from baycue.live.darkroom import Darkroom
from baycue.live.listening import Listening
from baycue.live.plans import Plans
from baycue.live.practice import LivePractice
from baycue.live.practices import Practices
from baycue.live.scorer import Scorer
from baycue.live.seen_again import ReplayMeans
from baycue.live.set_up import SetUpCheck
from baycue.live.standing import StandingKept
from baycue.live.told_troubles import ToldTroubles
from baycue.live.view_writer import ViewWriter


@dataclass(frozen=True, slots=True)
class Parts:
    """Everything between the camera and the golfer, put together once by ``Session``.

    ``set_up``: None where no check comes before the swings.
    """

    camera: LiveCamera
    darkroom: Darkroom
    set_up: SetUpCheck | None
    plans: Plans
    practices: Practices
    scorer: Scorer
    analysis: Analysis
    listening: Listening
    answers: Answers
    means: Means
    again: SwingAgain
    replay: ReplayMeans
    writer: ViewWriter
    keeper: Keeper
    standing: StandingKept
    troubles: ToldTroubles

    @property
    def practice(self) -> LivePractice | None:
        """The session of the plan that is on, if it has one."""
        return self.practices.of(self.plans.number)

    @property
    def setting_up(self) -> SetUpCheck | None:
        """The set-up check while it goes on."""
        return None if self.set_up is None or self.set_up.is_over else self.set_up
