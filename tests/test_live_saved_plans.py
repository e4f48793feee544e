"""A plan saved in the middle of a swing: that swing is judged by the plan it began with."""

import threading
from collections.abc import Callable
from dataclasses import dataclass, field

from baycue.capture.camera import LiveCamera
from baycue.capture.watchdog import Patience
from baycue.live.answers import Means
from baycue.live.feedback import FeedbackMode
from baycue.live.plans import TargetSet
from baycue.live.session import Session
from baycue.live.view import Stage
from baycue.plan.watch import PlanWatch
from tests.command_line import PLAN
from tests.held_plan import PATH, HeldFile
from tests.played_session import HeardSpeaker, SeenScreen, SteppedCamera, known

TEXT = PLAN.read_text(encoding="utf-8")
EASIER = TEXT.replace("at_least: 5 cm", "at_least: -40 cm")
BROKEN = TEXT.replace("at_least: 5 cm", "at_least: 5")
LINE = TEXT[: TEXT.index("at_least: 5 cm")].count("\n") + 1


@dataclass
class Bay:
    """The clip of two swings; in the first one's downswing a text is saved over its plan.

    Between the swings the golfer waits until ``seen`` is so.
    """

    saved: str
    seen: Callable[["Bay"], bool]
    file: HeldFile = field(default_factory=lambda: HeldFile(TEXT))
    said: list[str] = field(default_factory=list)
    screen: SeenScreen = field(default_factory=SeenScreen)

    def play(self) -> Session:
        self.watch = PlanWatch(PATH, self.file)
        self.first = self.watch.plan
        stepped, opening = SteppedCamera(known().frames), threading.Event()

        def open_stepped() -> SteppedCamera:
            opening.wait(30)
            return stepped

        camera = LiveCamera(open_stepped, Patience(frozen_ns=None), clock=stepped.now_ns)
        means = Means(HeardSpeaker(), self.screen, self.said.append)
        sets = [TargetSet("heron", self.watch.plan, self.watch)]
        self.session = Session(camera, known(), sets, means, FeedbackMode())
        stepped.looked_at = self._looked_at
        opening.set()
        self.session.run()
        return self.session

    def _looked_at(self) -> int:
        swinging = self.session.analysis.stage is Stage.SWING
        if swinging and not self.file.saves:
            self.file.save(self.saved)
        between = self.session.analysis.swings == 1 and not swinging
        return -1 if between and not self.seen(self) else self.session.analysis.poses

    def least_cm(self) -> list[float]:
        """What each swing's knee was judged by."""
        told = [each.verdict for each in self.session.answers.told]
        bounds = [v.targets[0].said.bound for v in told if v and v.targets[0].said]
        return [float(bound.split()[2]) for bound in bounds]


def test_the_next_swing_is_judged_by_the_new_plan() -> None:
    bay = Bay(EASIER, lambda bay: bay.session.analysis.plan is not bay.first)
    bay.play()
    assert bay.least_cm() == [5.0, -40.0]
    taken = "plan heron: saved and taken; 3 targets from the next swing on"
    assert [line.split(":")[0] for line in bay.said] == ["swing 1", "plan heron", "swing 2"]
    assert taken in bay.said


def test_a_broken_save_is_told_on_screen_and_terminal_and_the_last_good_plan_goes_on() -> None:
    bay = Bay(
        BROKEN, lambda bay: any("Old plan kept" in (v.notice or "") for v in bay.screen.views)
    )
    bay.play()
    assert bay.least_cm() == [5.0, 5.0]
    assert f"{PATH}:{LINE}: targets[1].at_least: " in bay.said[1]
    notices = {view.notice for view in bay.screen.views if view.notice}
    assert any(f"line {LINE}, at_least" in notice for notice in notices)
