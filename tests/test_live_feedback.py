"""When an answer is told, what the screen's stage is, and how a session is counted."""

import pytest

from baycue.live.feedback import FeedbackMode, Pending, When, feedback_mode
from baycue.live.stage import shown_stage
from baycue.live.tally import Tally
from baycue.live.trouble_news import TroubleNews
from baycue.live.view import Stage
from baycue.verdict.verdict import Outcome, SwingVerdict

S = 1_000_000_000


def verdict(number: int = 1) -> SwingVerdict:
    return SwingVerdict(number, Outcome.PASS, (), "every target met")


def known(text: str, at_ns: int = 10 * S) -> Pending:
    return Pending(feedback_mode(text)).with_answer(verdict(), at_ns)


class TestSchedule:
    def test_at_once_is_at_once_and_only_once(self) -> None:
        left, told = known("at-once").told(10 * S)
        assert told == verdict()
        assert left.told(99 * S)[1] is None

    @pytest.mark.parametrize(("now_s", "due"), [(10.0, False), (12.99, False), (13.0, True)])
    def test_a_delay_counts_from_the_verdict(self, now_s: float, due: bool) -> None:
        _, told = known("delay:3").told(round(now_s * S))
        assert (told is not None) == due

    def test_on_request_waits_for_ever_and_answers_once(self) -> None:
        pending = known("on-request")
        assert pending.told(10_000 * S)[1] is None
        left, told = pending.told(11 * S, requested=True)
        assert told == verdict()
        assert left.told(12 * S, requested=True)[1] is None

    def test_asking_shortens_a_delay(self) -> None:
        assert known("delay:3").told(11 * S, requested=True)[1] == verdict()

    def test_a_newer_swing_takes_the_place_of_one_not_told(self) -> None:
        pending = known("on-request").with_answer(verdict(2), 20 * S)
        assert pending.told(21 * S, requested=True)[1] == verdict(2)

    @pytest.mark.parametrize("mode", ["at-once", "delay:3", "on-request"])
    def test_what_is_told_only_if_asked_waits_in_every_mode(self, mode: str) -> None:
        pending = Pending(feedback_mode(mode)).with_answer(verdict(), 10 * S, if_asked=True)
        assert pending.waits
        assert pending.told(99 * S)[1] is None
        left, told = pending.told(11 * S, requested=True)
        assert (told, left.waits) == (verdict(), False)

    def test_only_what_must_be_asked_for_waits(self) -> None:
        assert known("on-request").waits
        assert not known("delay:3").waits
        assert not Pending(feedback_mode("on-request")).waits

    def test_nothing_known_is_nothing_told(self) -> None:
        assert Pending(FeedbackMode()).told(S, requested=True)[1] is None


@pytest.mark.parametrize(
    ("text", "mode"),
    [
        ("at-once", FeedbackMode()),
        (" Delay:2.5 ", FeedbackMode(When.DELAY, 2.5)),
        ("on-request", FeedbackMode(When.ON_REQUEST)),
    ],
)
def test_modes_are_read(text: str, mode: FeedbackMode) -> None:
    assert feedback_mode(text) == mode


@pytest.mark.parametrize("text", ["", "later", "delay", "delay:", "delay:-1", "at-once:3"])
def test_other_words_are_refused(text: str) -> None:
    with pytest.raises(ValueError, match="allowed: at-once, delay:SECONDS, on-request"):
        feedback_mode(text)


@pytest.mark.parametrize("text", ["delay:0", "delay:31"])
def test_a_delay_has_bounds(text: str) -> None:
    with pytest.raises(ValueError, match="over 0 and up to 30 s"):
        feedback_mode(text)


@pytest.mark.parametrize(
    ("online", "paused", "setting_up", "golfer", "answered", "shown"),
    [
        (False, True, True, Stage.SWING, True, Stage.OFFLINE),
        (True, True, True, Stage.SWING, True, Stage.PAUSED),
        (True, False, True, Stage.SWING, True, Stage.SET_UP),
        (True, False, False, Stage.SWING, True, Stage.VERDICT),
        (True, False, False, Stage.ADDRESS, False, Stage.ADDRESS),
    ],
)
def test_what_matters_most_is_shown(
    online: bool, paused: bool, setting_up: bool, golfer: Stage, answered: bool, shown: Stage
) -> None:
    assert shown_stage(online, paused, setting_up, golfer, answered) is shown


def test_a_session_is_counted() -> None:
    tally = Tally()
    runs = []
    for outcome in (
        Outcome.PASS,
        Outcome.PASS,
        None,
        Outcome.PASS,
        Outcome.TOO_CLOSE,
        Outcome.FAIL,
    ):
        tally = tally.after(outcome)
        runs.append(tally.run_of_passes)
    assert runs == [1, 2, 2, 3, 0, 0]
    assert (tally.balls, tally.passes) == (6, 3)


def test_a_lost_camera_is_told_once_and_a_hiccup_is_not() -> None:
    news, told = TroubleNews("camera offline", "camera online again"), []
    troubles = ["", "gone", "gone", "", "gone", "gone", "gone", "gone", "still gone", "", ""]
    for second, trouble in enumerate(troubles):
        news, line = news.after(trouble, second * 1_000_000_000)
        told.append(line)
    assert told[:6] == [None] * 6
    assert told[6:] == ["camera offline: gone", None, None, "camera online again", None]
