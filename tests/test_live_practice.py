"""A plan's session in the live loop: what is sounded, shown and kept back, and how holds count."""

from dataclasses import dataclass, field, replace

import pytest

from baycue.cues.guide_tone import STEADY, GuideVoice
from baycue.keep.record import DrillPlace, PracticeGo
from baycue.live.feedback import FeedbackMode, feedback_mode
from baycue.live.practice import LivePractice, live_practice
from baycue.live.view import Stage
from baycue.plan.load import load_plan
from baycue.plan.plan import Plan
from baycue.practice.history import RememberedPasses
from baycue.practice.schedule import Answer, Telling
from baycue.spine import ScoredSwing, UnscorableSwing
from baycue.verdict.verdict import Outcome
from tests.played_session import PLAN, Played, at_once, play, verdicts
from tests.practice_plans import practice_plan
from tests.rehearsed_hold import held_glimpses, held_plan
from tests.scored_swing import scored_swing
from tests.told_verdicts import told_swing

__all__ = ["at_once"]

FULL = "{drill: full swing, count: 1}"


def with_practice(section: str) -> Plan:
    """The sample's plan with a practice section."""
    practice = practice_plan(section).practice
    return load_plan(PLAN).model_copy(update={"practice": practice})


def blocks(*feedback: str) -> Plan:
    lines = (f"    - {{drills: [{FULL}], feedback: {words}}}\n" for words in feedback)
    return with_practice("  blocks:\n" + "".join(lines))


@pytest.fixture(scope="module")
def silent_then_told() -> Played:
    return play(FeedbackMode(), plans=(blocks("silent", "every swing"),))


def test_a_silent_block_is_judged_and_neither_shown_nor_sounded(
    silent_then_told: Played, at_once: Played
) -> None:
    played = silent_then_told
    assert [v.outcome for v in verdicts(played)] == [Outcome.FAIL, Outcome.PASS]
    assert [v.reason for v in verdicts(played)] == [v.reason for v in verdicts(at_once)]
    assert played.speaker.played == [Outcome.PASS]
    assert played.told[0].cue_ns is None
    shown = {view.verdict.swing_number for view in played.screen.views if view.verdict}
    assert shown == {2}
    assert any(view.withheld and view.stage is Stage.VERDICT for view in played.screen.views)
    assert "swing 1: judged and kept, not told" in played.said
    assert not any("FAIL" in line or "fail" in line for line in played.said)
    last = played.screen.views[-1]
    assert (last.balls, last.passes) == (1, 1)


def test_the_terminal_says_what_is_next(silent_then_told: Played) -> None:
    said = [line for line in silent_then_told.said if line.startswith("practice:")]
    assert said[0].startswith("practice: block 1 of 2, 0 of 1 done. Next: full swing.")
    assert "facility's rules" in said[0]
    assert said[-1] == "practice: all done; full swings from now on"


def test_a_summary_comes_when_its_swings_are_there() -> None:
    section = "  blocks: [{drills: [{drill: full swing, count: 2}], feedback: summary}]\n"
    played = play(FeedbackMode(), plans=(with_practice(section),))
    assert played.speaker.played == []
    summaries = [view.summary for view in played.screen.views if view.summary]
    assert summaries[0].outcomes == (Outcome.FAIL, Outcome.PASS)
    assert any(line.startswith("the last 2 swings: 1 passed") for line in played.said)


@pytest.mark.parametrize("mode", ["at-once", "on-request"])
def test_what_is_told_on_request_waits_whatever_the_timing(mode: str) -> None:
    played = play(feedback_mode(mode), plans=(blocks("on request", "on request"),))
    assert played.speaker.played == []
    assert any(v.notice == "The answer is ready: press A." for v in played.screen.views)


@dataclass
class HeardGuide:
    """Remembers what it was asked to sound."""

    voices: list[GuideVoice | None] = field(default_factory=list)

    def guide(self, voice: GuideVoice | None) -> None:
        if not self.voices or self.voices[-1] != voice:
            self.voices.append(voice)


@dataclass
class Started:
    """A session and what came of it."""

    practice: LivePractice
    guide: HeardGuide
    held: list[Answer | None]


def started(plan: Plan) -> Started:
    guide, held = HeardGuide(), list[Answer | None]()
    practice = live_practice(plan, guide, held.append)
    assert practice is not None
    return Started(practice, guide, held)


class TestHold:
    def test_it_is_guided_by_tone_until_it_counts(self) -> None:
        session = started(held_plan())
        for glimpse in held_glimpses():
            session.practice.look(glimpse)
        assert session.held == [None]
        view = session.practice.view()
        assert (view.drill, view.done) == ("rehearse and hold", 1)
        assert STEADY in session.guide.voices
        beats = [v.beat_hz for v in session.guide.voices if v]
        assert max(beats) > 4.0

    def test_the_tone_ends_with_the_hold_and_when_nobody_looks(self) -> None:
        session = started(held_plan(count=1))
        for glimpse in held_glimpses():
            session.practice.look(glimpse)
        assert session.practice.view().is_over
        assert session.guide.voices[-1] is None
        session.practice.be_quiet()
        assert session.guide.voices[-1] is None

    def test_nothing_is_guided_where_swings_are_practised(self) -> None:
        session = started(blocks("every swing"))
        for glimpse in held_glimpses()[:5]:
            session.practice.look(glimpse)
        assert session.guide.voices == []


class TestWhatCounts:
    GROUND = "  blocks: [{drills: [{drill: into the ground, count: 2}]}]\n"

    def test_a_stop_is_wanted_only_into_the_ground_and_no_strike_is_listened_for(self) -> None:
        ground, full = started(practice_plan(self.GROUND)), started(blocks("every swing"))
        assert (ground.practice.wants_stops, ground.practice.has_ball) == (True, False)
        assert (full.practice.wants_stops, full.practice.has_ball) == (False, True)

    def test_a_swing_through_is_not_counted_and_the_golfer_is_told_why(
        self, at_once: Played
    ) -> None:
        session = started(with_practice(self.GROUND)).practice
        assert isinstance(at_once.newest, ScoredSwing)
        through = session.judged(at_once.newest, stopped=False)
        assert through.telling is Telling.WITHHOLD
        assert session.note == "That one went through: not counted. Stop at the ground."
        assert session.judged(at_once.newest, stopped=True).telling is Telling.TELL
        assert session.note is None
        assert session.view().done == 1

    def test_what_cannot_be_judged_is_done_again(self) -> None:
        session = started(blocks("silent")).practice
        assert session.judged(UnscorableSwing(1, "two people"), False).telling is Telling.TELL
        assert session.view().done == 0

    def test_keys_skip_and_what_is_left_is_summed_up(self, at_once: Played) -> None:
        drills = "{drills: [{drill: full swing, count: 4}], feedback: summary}"
        session = started(with_practice(f"  blocks: [{drills}]\n")).practice
        assert isinstance(at_once.newest, ScoredSwing)
        session.judged(at_once.newest, False)
        assert session.skip(block=False) is None
        left = session.skip(block=True)
        assert left is not None
        assert left.summed == (at_once.newest.verdict,)
        assert session.view().is_over


class TestWhatIsKeptOfAGo:
    def test_each_go_is_told_by_block_drill_and_probe(self, at_once: Played) -> None:
        session = started(blocks("every swing", "silent")).practice
        assert isinstance(at_once.newest, ScoredSwing)
        found = []
        for _ in range(3):
            session.judged(at_once.newest, False)
            found.append(session.counted)
        told, probe, after = found
        assert told == PracticeGo(DrillPlace(0, 0), "full swing", "full swing", probe=False)
        assert probe == PracticeGo(DrillPlace(1, 0), "full swing", "full swing", probe=True)
        assert after is None, "all is done"
        assert len(session.retention()) == 1

    def test_what_counts_as_no_go_is_marked_as_none(self, at_once: Played) -> None:
        drills = "[{drill: full swing, count: 3}]"
        session = started(
            with_practice(f"  blocks: [{{name: stays, drills: {drills}, feedback: silent}}]\n")
        ).practice
        assert isinstance(at_once.newest, ScoredSwing)
        session.judged(at_once.newest, False)
        assert session.counted == PracticeGo(DrillPlace(0, 0), "stays", "full swing", probe=True)
        session.judged(at_once.newest, stopped=True)
        assert session.counted is None
        session.judged(at_once.newest, False)
        session.judged(UnscorableSwing(4, "two people"), False)
        assert session.counted is None


def test_the_terminal_says_when_to_rest_and_each_drill_once() -> None:
    section = (
        f"  blocks:\n    - {{drills: [{FULL}], rest: 40 s}}\n"
        "    - {drills: [{drill: into the ground, count: 3}]}\n"
    )
    session = started(with_practice(section)).practice
    assert "Rest" not in str(session.news())
    assert session.news() is None
    swing = at_the_ball(session)
    assert "0 of 3 done. Rest 40 s first. Next: into the ground." in str(swing)
    assert session.view().rest_s == 40


def at_the_ball(session: LivePractice) -> str | None:
    """What is said after a swing that counts."""
    scored = replace(scored_swing(), verdict=told_swing(1, Outcome.PASS))
    session.judged(scored, False)
    return session.news()


class TestSavedPlan:
    def test_other_targets_go_on_where_the_golfer_is(self) -> None:
        plan = blocks("every swing", "silent")
        session = started(plan).practice
        session.skip(block=True)
        fewer = plan.model_copy(update={"targets": plan.targets[:1]})
        assert not session.take(fewer)
        assert session.view().number == 2
        assert session.plan is fewer

    def test_another_session_begins_at_its_start(self) -> None:
        session = started(blocks("every swing", "silent")).practice
        session.skip(block=True)
        assert session.take(blocks("silent", "silent", "silent"))
        view = session.view()
        assert (view.number, view.blocks, view.is_silent) == (1, 3, True)


def test_progress_is_told_at_the_end_from_earlier_sessions_too(at_once: Played) -> None:
    rule = "  progress: [{target: knee past ankle at P6, pass_rate: 50 %, over: 20}]\n"
    plan = with_practice(f"  blocks: [{{drills: [{FULL}]}}]\n" + rule)
    earlier = RememberedPasses()
    passed = replace(verdicts(at_once)[1])
    for _ in range(19):
        earlier = earlier.with_swing(plan.student, plan.targets, passed)
    practice = live_practice(plan, HeardGuide(), lambda left: None, earlier)
    assert practice is not None
    assert "1 more swing until it can be told" in practice.progress()[0]
    assert isinstance(at_once.newest, ScoredSwing)
    practice.judged(at_once.newest, False)
    (line,) = practice.view().progress
    assert line.endswith("Proposed to the coach: maintain it")
