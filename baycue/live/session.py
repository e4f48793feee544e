"""One session in the bay: camera, analysis, sound and screen wired together."""

import threading
import time
from collections.abc import Sequence

from baycue.capture.camera import LiveCamera
from baycue.cues.speaker import Speaker
from baycue.find_ruler import board_watch
from baycue.keep.keeper import Keeper, KeepsNothing
from baycue.keep.resume import Resumed
from baycue.keep.standing import Standing as KeptStanding
from baycue.live.after_swing import heed_microphone, heed_scorer, hold_counts, swing_known
from baycue.live.again import SwingAgain
from baycue.live.analysis import Analysis
from baycue.live.answers import Answers, Means
from baycue.live.closing import close
from baycue.live.darkroom import Darkroom
from baycue.live.feedback import FeedbackMode
from baycue.live.interrupts import Interrupts
from baycue.live.kept_news import keep_standing, tell_of_keeping, tell_of_writing
from baycue.live.keys import heed_keys
from baycue.live.listening import Listener, Listening
from baycue.live.next_swing import follow_practice, take_saved_plans
from baycue.live.parts import Parts
from baycue.live.plans import Plans, TargetSet
from baycue.live.practices import Practices
from baycue.live.promptness import be_prompt
from baycue.live.scorer import HereScorer, Scorer
from baycue.live.seen_again import ReplayMeans
from baycue.live.set_up import SetUpCheck
from baycue.live.standing import StandingKept, standing_of, tally_of
from baycue.live.timing import SwingTiming
from baycue.live.told_troubles import ToldTroubles
from baycue.live.view_now import view_now
from baycue.live.view_writer import ViewWriter
from baycue.plan.plan import Plan
from baycue.pose.estimator import PoseEstimator
from baycue.practice.history import PassHistory
from baycue.practice.schedule import Answer
from baycue.spine import ScoredSwing, UnscorableSwing

_LOOK_S = 0.02
_FILE_IS_OVER_NS = 1_500_000_000


class Session:
    """Runs until the golfer quits, ``stop`` is called, or a file played as if live is over.

    ``run`` must be called by the main thread, which alone may use the screen.  ``set_up``: the
    check that comes before all swings; None leaves it out.  ``scorer``: None scores in the
    thread that finds poses; ``ProcessScorer`` is quicker.  ``keeper``: None keeps nothing.
    ``passed``: what earlier sessions tell the plans' progress rules.  ``resumed``: a session that
    was cut off, to be gone on with.  ``replay``: what the last swing seen again needs.
    """

    def __init__(
        self,
        camera: LiveCamera,
        estimator: PoseEstimator,
        target_sets: Sequence[TargetSet],
        means: Means,
        mode: FeedbackMode,
        set_up: SetUpCheck | None = None,
        microphone: Listener | None = None,
        scorer: Scorer | None = None,
        keeper: Keeper | None = None,
        passed: PassHistory | None = None,
        resumed: Resumed | None = None,
        replay: ReplayMeans | None = None,
    ) -> None:
        self._wake, self._stopping = threading.Event(), threading.Event()
        plans = Plans(target_sets, means.say)
        before = resumed.standing if resumed else KeptStanding()
        self.answers = Answers(mode, means, tally_of(before))
        self.darkroom = Darkroom(camera.ring)
        troubles = ToldTroubles(camera, self.darkroom, means.say, means.no_sound_told)
        first, watches = plans.plan, (board_watch(each.plan) for each in target_sets)
        board = next((watch for watch in watches if watch), None)
        scorer = scorer or HereScorer()
        replay = replay or ReplayMeans()
        keeper = keeper or KeepsNothing()
        again = SwingAgain(camera.ring)
        writer = ViewWriter(replay.out, replay.blur_faces)
        self.practices = Practices(target_sets, means.guide, self._held, passed, resumed)
        self.analysis = Analysis(
            self.darkroom,
            estimator,
            first,
            self._known,
            scorer,
            set_up,
            board,
            swings=before.number,
        )
        stood = standing_of(before.number, tally_of(before), self.practices.places())
        self._parts = Parts(
            camera=camera,
            darkroom=self.darkroom,
            set_up=set_up,
            plans=plans,
            practices=self.practices,
            scorer=scorer,
            analysis=self.analysis,
            listening=Listening(microphone),
            answers=self.answers,
            means=means,
            again=again,
            replay=replay,
            writer=writer,
            keeper=keeper,
            standing=StandingKept(keeper, stood),
            troubles=troubles,
        )
        follow_practice(self._parts)

    def stop(self) -> None:
        """End ``run`` soon; from any thread."""
        self._stopping.set()
        self._wake.set()

    def run(self, interrupts: Interrupts | None = None) -> None:
        """Watch, answer and show until the end; raises what stopped the analysis, if anything."""
        interrupts = interrupts or Interrupts()
        be_prompt()
        try:
            while not (self._stopping.is_set() or interrupts.came):
                self._step()
                self._wake.wait(_LOOK_S)
                self._wake.clear()
        finally:
            close(self._parts)
        if self.analysis.error is not None:
            raise self.analysis.error

    def _step(self) -> None:
        parts = self._parts
        heed_keys(parts, self.stop)
        self.answers.tell_what_is_due()
        heed_microphone(parts)
        heed_scorer(parts)
        tell_of_keeping(parts)
        tell_of_writing(parts)
        keep_standing(parts)
        take_saved_plans(parts)
        status = parts.camera.status()
        parts.troubles.look(status, _why_no_sound(parts.means.speaker), time.monotonic_ns())
        parts.means.screen.show(view_now(parts, status))
        if self.analysis.error is not None or (status.ended and self._all_seen()):
            self.stop()

    def _all_seen(self) -> bool:
        """Whether the last frame of a file that is over has long been looked at."""
        newest = self._parts.camera.ring.wait_beyond(-1, 0.0)[-1:]
        idle_ns = time.monotonic_ns() - newest[0].stamp_ns if newest else 1 << 62
        return idle_ns > _FILE_IS_OVER_NS and not self.analysis.scoring

    def _held(self, left: Answer | None) -> None:
        """A hold counts; called by the analysis thread."""
        hold_counts(self._parts, left)
        self._wake.set()

    def _known(self, swing: ScoredSwing | UnscorableSwing, timing: SwingTiming, plan: Plan) -> None:
        """A swing has been scored by a plan; called by the analysis thread."""
        swing_known(self._parts, swing, timing, plan)
        self._wake.set()


def _why_no_sound(speaker: Speaker) -> str:
    return "" if speaker.is_alive else speaker.describe()
