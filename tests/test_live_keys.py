"""What the golfer's keys do in the whole live loop."""

from itertools import repeat

from baycue.cues.keys import Key
from baycue.live.feedback import FeedbackMode, feedback_mode
from baycue.live.set_up import SetUpCheck
from baycue.live.view import Stage
from baycue.plan.load import load_plan
from baycue.verdict.verdict import Outcome
from tests.played_session import LEFT_HANDED, PLAN, known, play, verdicts


def test_on_request_stays_silent_until_asked() -> None:
    played = play(feedback_mode("on-request"))
    assert [v.outcome for v in verdicts(played)] == [Outcome.FAIL, Outcome.PASS]
    assert played.speaker.played == []
    assert {told.cue_ns for told in played.told} == {None}
    assert {view.verdict for view in played.screen.views} == {None}
    assert any(view.notice == "The answer is ready: press A." for view in played.screen.views)


def test_asked_it_answers_and_targets_can_be_changed() -> None:
    plan = load_plan(PLAN)
    easy = plan.model_copy(update={"targets": plan.targets[1:2]})
    wishes = {Stage.VERDICT: iter([Key.NEXT_TARGETS]), Stage.SWING: repeat(Key.ANSWER)}
    played = play(feedback_mode("on-request"), wishes, (easy, plan))
    assert [len(v.targets) for v in verdicts(played)] == [1, 3]
    assert played.speaker.played == [v.outcome for v in verdicts(played)]
    assert {"set 0", "set 1"} == {view.plan_name for view in played.screen.views}


def test_again_shows_and_sounds_it_once_more_and_counts_it_once() -> None:
    played = play(FeedbackMode(), {Stage.VERDICT: iter([Key.REPLAY])})
    assert played.speaker.played == [Outcome.FAIL, Outcome.FAIL, Outcome.PASS]
    assert (played.screen.views[-1].balls, len(played.told)) == (2, 2)


def test_the_sound_can_be_tried() -> None:
    played = play(FeedbackMode(), {Stage.WAITING: iter([Key.SOUND_CHECK])})
    assert played.speaker.played == [Outcome.PASS, Outcome.FAIL, Outcome.PASS]


def test_the_golfer_may_go_on_as_it_is() -> None:
    golfer = known().standing_first(100)
    played = play(
        FeedbackMode(),
        {Stage.SET_UP: repeat(Key.ANSWER)},
        (load_plan(LEFT_HANDED),),
        set_up=SetUpCheck(),
        golfer=golfer,
    )
    assert [told.verdict for told in played.told] == [None, None], "it swings the other way"
    watching = played.screen.stages().index(Stage.WAITING)
    assert Stage.SET_UP not in played.screen.stages()[watching:]


def test_the_set_up_is_checked_again_when_asked() -> None:
    set_up = SetUpCheck()
    set_up.go_on()
    golfer = known().standing_first(60)
    wishes = {Stage.VERDICT: iter([Key.SET_UP]), Stage.SET_UP: repeat(Key.ANSWER, 1)}
    played = play(FeedbackMode(), wishes, set_up=set_up, golfer=golfer)
    stages = played.screen.stages()
    assert Stage.SET_UP not in stages[: stages.index(Stage.VERDICT)]
    assert Stage.SET_UP in stages[stages.index(Stage.VERDICT) :]
    assert [v.outcome for v in verdicts(played)] == [Outcome.FAIL, Outcome.PASS]


def test_paused_it_scores_nothing() -> None:
    played = play(FeedbackMode(), {Stage.WAITING: iter([Key.PAUSE])})
    assert played.told == ()
    assert Stage.PAUSED in played.screen.stages()
