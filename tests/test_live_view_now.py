"""What the screen is shown of a lost speaker or camera, in the whole live loop."""

import threading
import time
from collections.abc import Iterator
from itertools import count

from baycue.capture.camera import LiveCamera
from baycue.capture.opening import open_address
from baycue.capture.watchdog import Patience
from baycue.live.answers import Means
from baycue.live.feedback import FeedbackMode
from baycue.live.plans import TargetSet
from baycue.live.session import Session
from baycue.live.view import Stage
from baycue.plan.load import load_plan
from baycue.rehearsal.jpeg_server import JpegServer
from baycue.verdict.verdict import Outcome
from tests.filmed_swing import KnownPoses
from tests.played_session import (
    PLAN,
    HeardSpeaker,
    SeenScreen,
    play,
    verdicts,
)
from tests.test_capture_network import jpeg, paced


def test_a_lost_speaker_ends_nothing() -> None:
    played = play(FeedbackMode(), broken=True)
    assert [v.outcome for v in verdicts(played)] == [Outcome.FAIL, Outcome.PASS]
    health = played.screen.views[-1].health
    assert (health.sound_ok, health.sound) == (False, "no sound: it was pulled out")


def test_a_lost_camera_is_shown_and_the_session_goes_on() -> None:
    silent, go_on = threading.Event(), threading.Event()

    def show() -> Iterator[bytes]:
        for k, picture in enumerate(paced(jpeg(k) for k in count())):
            if k > 20 and not go_on.is_set():
                silent.set()
                go_on.wait(30)
            yield picture

    screen = SeenScreen()
    patience = Patience(silent_ns=400_000_000)
    with JpegServer(show) as server:
        camera = LiveCamera(lambda: open_address(server.url), patience)
        means = Means(HeardSpeaker(), screen, lambda line: None)
        sets = [TargetSet("any", load_plan(PLAN))]
        session = Session(camera, KnownPoses({}), sets, means, FeedbackMode())

        def play_the_part() -> None:
            silent.wait(30)
            wait_for(screen, Stage.OFFLINE)
            go_on.set()
            wait_for(screen, Stage.WAITING)
            session.stop()

        other = threading.Thread(target=play_the_part)
        other.start()
        session.run()
        other.join()
    stages = screen.stages()
    assert Stage.OFFLINE in stages[stages.index(Stage.WAITING) :]
    assert stages[-1] is Stage.WAITING
    lost = next(v for v in reversed(screen.views) if v.stage is Stage.OFFLINE)
    assert lost.notice
    assert not lost.health.camera_online


def wait_for(screen: SeenScreen, stage: Stage) -> None:
    deadline = time.monotonic() + 30
    while screen.views[-1].stage is not stage:
        assert time.monotonic() < deadline
        time.sleep(0.01)
