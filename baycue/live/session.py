"""One session in the bay: camera, analysis, sound and screen wired together."""

import threading
import time
from collections.abc import Sequence
from functools import partial

from baycue.capture.camera import CameraStatus, LiveCamera
from baycue.cues.keys import Key
from baycue.cues.live_words import tally_words
from baycue.ear.impact import Struck
from baycue.errors import BaycueError
from baycue.find_ruler import board_watch
from baycue.keep.keeper import Keeper, KeepsNothing, ToldSwing
from baycue.keep.resume import Resumed
from baycue.keep.standing import Standing as KeptStanding
from baycue.live.again import SwingAgain
from baycue.live.analysis import Analysis
from baycue.live.answers import Answers, Means, Standing
from baycue.live.darkroom import Darkroom
from baycue.live.feedback import FeedbackMode
from baycue.live.interrupts import Interrupts
from baycue.live.listening import Listener, Listening
from baycue.live.plans import Plans, TargetSet
from baycue.live.practice import LivePractice
from baycue.live.practices import Practices
from baycue.live.promptness import be_prompt
from baycue.live.scorer import HereScorer, Scorer
from baycue.live.seen_again import ReplayMeans, heed_replay
from baycue.live.set_up import SetUpCheck
from baycue.live.stage import is_judged, shown_stage
from baycue.live.standing import standing_of, tally_of
from baycue.live.timing import SwingTiming
from baycue.live.told_troubles import ToldTroubles
from baycue.live.view import Health, LiveView, Stage
from baycue.live.view_writer import ViewWriter
from baycue.plan.plan import Plan
from baycue.pose.estimator import PoseEstimator
from baycue.practice.history import PassHistory
from baycue.practice.schedule import TELL, Answer
from baycue.spine import ScoredSwing, UnscorableSwing
from baycue.swing.swing import CheckpointName
from baycue.verdict.verdict import Outcome

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
        self._camera, self._means = camera, means
        self._plans = Plans(target_sets, means.say)
        self._wake, self._stopping = threading.Event(), threading.Event()
        before = resumed.standing if resumed else KeptStanding()
        self.answers = Answers(mode, means, tally_of(before))
        self.darkroom = Darkroom(camera.ring)
        self._troubles = ToldTroubles(camera, self.darkroom, means.say, means.no_sound_told)
        self._set_up, self._listening = set_up, Listening(microphone)
        first, watches = self._plans.plan, (board_watch(each.plan) for each in target_sets)
        board = next((watch for watch in watches if watch), None)
        self._scorer = scorer or HereScorer()
        self._replay = replay or ReplayMeans()
        self._again = SwingAgain(camera.ring)
        self._writer = ViewWriter(self._replay.out, self._replay.blur_faces)
        self._keeper: Keeper = keeper or KeepsNothing()
        self.practices = Practices(target_sets, means.guide, self._held, passed, resumed)
        self.analysis = Analysis(
            self.darkroom,
            estimator,
            first,
            self._known,
            self._scorer,
            set_up,
            board,
            swings=before.number,
        )
        self._stood = standing_of(before.number, tally_of(before), self.practices.places())
        self._follow_practice()

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
            self._close()
        if self.analysis.error is not None:
            raise self.analysis.error

    def _step(self) -> None:
        wishes = self._means.screen.keys()
        for key in wishes:
            if isinstance(key, Key):
                self._heed(key)
            else:
                heed_replay(key, self._again, self._writer, time.monotonic_ns())
        self.answers.tell_what_is_due()
        heard = self._listening.heard()
        if heard is not None:
            self._means.say(heard.line)
            if heard.impact.struck is Struck.PRACTICE:
                self.answers.no_ball(heard.number)
        self._heed_scorer()
        self._tell_of_keeping()
        self._tell_of_writing()
        self._tell_how_it_stands()
        self._take_saved_plans()
        status = self._camera.status()
        self._troubles.look(status, self._why_no_sound(), time.monotonic_ns())
        self._means.screen.show(self._view(status))
        if self.analysis.error is not None or (status.ended and self._all_seen()):
            self.stop()

    def _heed_scorer(self) -> None:
        for line in self._scorer.notices():
            self._means.say(line)
        for swing in self._scorer.finished():
            self.answers.finished(swing.scored)
            poses = self.analysis.poses_since(swing.scored.decided_ns)
            self._again.finished(swing.scored, poses)
            self._keeper.finished(swing.scored, poses)

    def _tell_of_keeping(self) -> None:
        for line in self._keeper.news():
            self._means.say(line)

    def _tell_of_writing(self) -> None:
        free = not is_judged(self.analysis.stage, self.analysis.scoring)
        self._writer.let(free)
        self._keeper.let(free)
        for line in self._writer.news(time.monotonic_ns()):
            self._means.say(line)

    def _tell_how_it_stands(self) -> None:
        """Have it kept, should this process be killed."""
        tally = self.answers.standing(at_address=False).tally
        stands = standing_of(self.analysis.swings, tally, self.practices.places())
        begun = stands.number or any(place.number for place in stands.places)
        if begun and stands != self._stood:
            self._stood = stands
            self._keeper.stands(self._plans.plan.student, stands)

    def _take_saved_plans(self) -> None:
        between = self.analysis.stage is not Stage.SWING and not self.analysis.scoring
        saved = self._plans.look(time.monotonic_ns(), between)
        if saved is not None:
            self.practices.take(self._plans.number, saved)
        self._follow_practice()

    @property
    def _practice(self) -> LivePractice | None:
        """The session of the plan that is on, if it has one."""
        return self.practices.of(self._plans.number)

    def _follow_practice(self) -> None:
        """Have the next swing judged by what the next go asks for."""
        practice = self._practice
        self.analysis.drilling = practice
        self.analysis.plan = practice.plan if practice else self._plans.plan
        news = practice.news() if practice else None
        if news is not None:
            self._means.say(news)

    def _why_no_sound(self) -> str:
        speaker = self._means.speaker
        return "" if speaker.is_alive else speaker.describe()

    def _all_seen(self) -> bool:
        """Whether the last frame of a file that is over has long been looked at."""
        newest = self._camera.ring.wait_beyond(-1, 0.0)[-1:]
        idle_ns = time.monotonic_ns() - newest[0].stamp_ns if newest else 1 << 62
        return idle_ns > _FILE_IS_OVER_NS and not self.analysis.scoring

    def _heed(self, key: Key) -> None:
        if key is Key.QUIT:
            self.stop()
        elif key is Key.PAUSE:
            self.analysis.paused = not self.analysis.paused
        elif key is Key.ANSWER and self._setting_up is not None:
            self._setting_up.go_on()
        elif key is Key.ANSWER:
            self.answers.tell_what_is_due(requested=True)
        elif key is Key.REPLAY:
            self.answers.again()
            self._again.anew()
        elif key is Key.NEXT_TARGETS:
            self._turn_over()
        elif key in (Key.SKIP, Key.SKIP_BLOCK) and self._practice is not None:
            self._sum_up(self._practice.skip(block=key is Key.SKIP_BLOCK))
        elif key is Key.SET_UP and self._set_up is not None:
            self._set_up.again()
        elif key is Key.SOUND_CHECK:
            self.answers.sound(Outcome.PASS)

    def _turn_over(self) -> None:
        if self._practice is not None:
            self._practice.be_quiet()
        plan = self._plans.turn_over()
        self.practices.take(self._plans.number, plan)
        self._follow_practice()

    def _sum_up(self, left: Answer | None) -> None:
        if left is not None:
            self.answers.sum_up(left.summed)

    def _held(self, left: Answer | None) -> None:
        """A hold counts; called by the analysis thread."""
        self.answers.sound(Outcome.PASS)
        self._means.say("held: it counts")
        self._sum_up(left)
        self._wake.set()

    def _known(self, swing: ScoredSwing | UnscorableSwing, timing: SwingTiming, plan: Plan) -> None:
        """A swing has been scored by a plan; called by the analysis thread."""
        practice = self._practice
        hears = practice is None or practice.has_ball
        if isinstance(swing, ScoredSwing) and hears:
            impact = swing.evidence.swing.at(CheckpointName.IMPACT)
            self._listening.seen(swing.verdict.swing_number, impact)
        answer = practice.judged(swing, self.analysis.stopped) if practice else TELL
        self.answers.known(swing, timing, answer)
        text, drill = self._plans.written(plan)
        self._offer_replay(swing, plan.student, text.name)
        times_ns = timing.impact_ns, timing.scored_ns
        go = practice.counted if practice else None
        self._keeper.known(ToldSwing(plan.student, text, swing, *times_ns, drill, go))
        self._wake.set()

    def _offer_replay(self, swing: ScoredSwing | UnscorableSwing, student: str, plan: str) -> None:
        if isinstance(swing, ScoredSwing):
            number = swing.verdict.swing_number
            self._again.known(swing, partial(self._replay.others, student, plan, number))
        else:
            self._again.known(None)

    @property
    def _setting_up(self) -> SetUpCheck | None:
        """The set-up check while it goes on."""
        return None if self._set_up is None or self._set_up.is_over else self._set_up

    def _view(self, status: CameraStatus) -> LiveView:
        golfer, checking = self.analysis.stage, self._setting_up
        at_address = golfer is Stage.ADDRESS and not self.analysis.scoring
        standing = self.answers.standing(at_address)
        paused, answered = self.analysis.paused, standing.answered
        online = (status.online and not self._troubles.pictures.blind) or status.ended
        stage = shown_stage(online, paused, checking is not None, golfer, answered)
        tally = tally_words(standing.tally.passes, standing.tally.balls)
        is_told = stage is Stage.VERDICT and answered
        replay = self._again.shown(time.monotonic_ns(), standing.verdict, is_told, tally)
        return LiveView(
            stage=stage,
            verdict=standing.verdict,
            unscorable=standing.unscorable,
            run_of_passes=standing.tally.run_of_passes,
            passes=standing.tally.passes,
            balls=standing.tally.balls,
            plan_name=self._plans.name,
            notice=self._notice(status, stage, standing),
            health=self._health(status, online, standing.sound_lost),
            set_up=checking.report if checking else None,
            summary=standing.summary,
            replay=replay,
            withheld=standing.withheld,
            practice=self._practice.view() if self._practice else None,
        )

    def _notice(self, status: CameraStatus, stage: Stage, standing: Standing) -> str | None:
        if status.trouble and not status.ended:
            return status.trouble
        if self._troubles.pictures.words and not status.ended:
            return self._troubles.pictures.words
        if stage is Stage.SET_UP:
            return "Go on as it is: press A."
        if standing.waits:
            return "The answer is ready: press A."
        plans = self._plans.notice(time.monotonic_ns())
        if plans is not None:
            return plans
        if self._practice is not None and self._practice.note is not None:
            return self._practice.note
        writing = self._writer.words(time.monotonic_ns())
        if writing:
            return writing
        if self._keeper.trouble and stage in (Stage.WAITING, Stage.ADDRESS):
            return self._keeper.trouble
        return self._listening.words if stage is Stage.VERDICT else None

    def _health(self, status: CameraStatus, online: bool, sound_lost: str | None) -> Health:
        speaker = self._means.speaker
        return Health(
            camera_online=online,
            camera_fps=None if status.fps is None else round(status.fps),
            dropped_frames=status.dropped + self.darkroom.damaged,
            sound_ok=speaker.is_alive and sound_lost is None,
            sound=sound_lost or speaker.describe(),
        )

    def _close(self) -> None:
        self._camera.close()
        self.darkroom.close()
        self.analysis.close()
        self._heed_scorer()
        self._scorer.close()
        self._keeper.close()
        self._tell_of_keeping()
        if self._set_up is not None:
            self._set_up.close()
        self._listening.close()
        self._again.close()
        if self._practice is not None:
            self._practice.be_quiet()
        try:
            self._means.speaker.close()
        except BaycueError as error:
            self._means.say(str(error))
        self._means.screen.close()
        self._tell_of_writing()
        if self._writer.still:
            self._means.say(f"{self._writer.still} still being written; wait for it")
        self._writer.close()
        self._tell_of_writing()
