"""A session played through: what counts, what is told, what is remembered."""

from collections import Counter

from baycue.measures.measurement import Measurement, Unit
from baycue.practice.drill import Ends
from baycue.practice.practice import Practice, practice_of
from baycue.practice.schedule import Telling
from baycue.practice.summary import summary_of
from baycue.practice.view import practice_view
from baycue.verdict.verdict import Outcome, Said, SwingVerdict, TargetVerdict
from tests.practice_plans import practice_plan
from tests.told_verdicts import told_swing, told_target

S = 1_000_000_000
SESSION = """\
  seed: 4
  blocks:
    - name: warm-up
      drills: [{drill: rehearse and hold, at: P6, hold: 2 s, count: 2, butt_within: 6 cm}]
      rest: 30 s
    - drills: [{drill: into the ground, count: 2}]
    - name: faded
      drills: [{drill: full swing, count: 20}]
      feedback: {show: faded, from: 100 %, to: 50 %}
    - name: summed
      drills: [{drill: full swing, count: 7}]
      feedback: {show: summary, every: 5}
    - name: probe
      drills: [{drill: full swing, count: 4}]
      feedback: silent
"""


def started(section: str = SESSION) -> Practice:
    practice = practice_of(practice_plan(section))
    assert practice is not None
    return practice


def past_two_blocks() -> Practice:
    return started().block_skipped()[0].block_skipped()[0]


def swung(practice: Practice, count: int) -> tuple[Practice, list[Telling]]:
    heard = []
    for number in range(count):
        practice, answer = practice.after_swing(told_swing(number, Outcome.PASS), False, S)
        heard.append(answer.telling)
    return practice, heard


def test_without_a_practice_section_there_is_none() -> None:
    plan = practice_plan(SESSION).model_copy(update={"practice": None})
    assert practice_of(plan) is None


def test_every_block_has_its_own_schedule_and_exact_counts() -> None:
    practice, faded = swung(past_two_blocks(), 20)
    assert Counter(faded) == {Telling.TELL: 15, Telling.WITHHOLD: 5}
    practice, summed = swung(practice, 7)
    # Five together, and the two that are left when the block ends.
    assert [k for k, t in enumerate(summed) if t is Telling.SUM_UP] == [4, 6]
    assert not practice_view(practice, 0).is_over
    assert practice.is_silent
    practice, probe = swung(practice, 4)
    assert probe == [Telling.WITHHOLD] * 4
    assert practice_view(practice, 0).is_over
    assert swung(practice, 2)[1] == [Telling.TELL] * 2


def test_silent_blocks_tell_the_coach_what_was_retained() -> None:
    probe = past_two_blocks()
    for _ in range(2):
        probe, _ = probe.block_skipped()
    assert probe.retention == ()
    for number, outcome in enumerate((Outcome.PASS, Outcome.FAIL, Outcome.PASS)):
        probe, _ = probe.after_swing(told_swing(number, outcome), False, S)
    # 2 of 3: .2077 to .9385 (statsmodels).
    assert probe.retention == (
        "silent block 5, probe: 2 of 3 passed, a rate of 21 to 94 % by the 95 % interval",
    )


def test_what_is_left_is_summed_up_when_a_block_is_skipped() -> None:
    practice, _ = swung(past_two_blocks().block_skipped()[0], 3)
    practice, answer = practice.block_skipped()
    assert answer is not None
    assert [verdict.swing_number for verdict in answer.summed] == [0, 1, 2]
    assert practice.block_skipped()[1] is None


def test_a_hold_counts_by_itself() -> None:
    practice, left = started().after_go(S)
    assert (practice.ends, left) == (Ends.HOLD, None)
    practice, _ = practice.after_go(2 * S)
    assert practice.walk.rest_until_ns == 32 * S
    assert practice.at(32 * S).walk.rest_until_ns is None


def test_a_swing_of_another_kind_counts_nothing_and_is_kept() -> None:
    ground = started().block_skipped()[0]
    through, answer = ground.after_swing(told_swing(1, Outcome.PASS), False, S)
    assert (through.walk, answer.telling) == (ground.walk, Telling.WITHHOLD)
    assert len(through.history.kept) == 1
    stopped, answer = ground.after_swing(told_swing(1, Outcome.PASS), True, S)
    assert (stopped.walk.done_in_block, answer.telling) == (1, Telling.TELL)
    assert past_two_blocks().counts(stops=True) is False


def test_a_drills_own_targets_judge_its_swings() -> None:
    own = "{drill: under a low cane, count: 1, targets: [{measure: tempo, between: [2, 4]}]}"
    practice = started(f"  blocks: [{{drills: [{own}]}}]\n")
    assert [t.title for t in practice.judged_by.targets] == ["tempo"]
    answer = told_target(Outcome.PASS, 0.5, Unit.RATIO, title="tempo")
    verdict = SwingVerdict(1, Outcome.PASS, (answer,), "")
    practice, _ = practice.after_swing(verdict, False, S)
    assert [key.title for key, _ in practice.history.kept] == ["tempo"]
    assert practice.judged_by is practice.plan


def test_a_swing_judged_by_a_plan_that_has_changed_since_is_not_counted_to_it() -> None:
    answer = told_target(Outcome.PASS, 0.5, Unit.RATIO, title="tempo")
    verdict = SwingVerdict(1, Outcome.PASS, (answer,), "")
    assert past_two_blocks().after_swing(verdict, False, S)[0].history.kept == ()


def test_the_golfer_is_told_what_is_next_how_much_is_done_and_when_to_rest() -> None:
    practice = started()
    view = practice_view(practice, 0)
    assert (view.title, view.place) == ("warm-up", "block 1 of 5, 0 of 2 done")
    assert view.is_hold
    assert view.told.startswith("To P6: shaft parallel, butt at the buckle. ")
    assert view.told.endswith("Hold 2 s.")
    practice = practice.after_go(0)[0].after_go(0)[0]
    resting = practice_view(practice, 10 * S + 1)
    assert (resting.drill, resting.rest_s) == ("into the ground", 20)
    assert any("hard mat" in caution for caution in resting.cautions)
    assert any("facility's rules" in caution for caution in resting.cautions)


def test_a_summary_tells_each_target_over_all_swings() -> None:
    def judged(number: int, outcome: Outcome, value: str | None) -> SwingVerdict:
        said = Said(value, "at least 5.0 cm", "", "1.0 cm") if value else None
        measured = Measurement("knee past ankle", 0.05, 0.01, Unit.METRE) if value else None
        answer = TargetVerdict("knee", outcome, measured, None, "", said)
        return SwingVerdict(number, outcome, (answer,), "")

    swings = (judged(1, Outcome.PASS, "5.4 cm"), judged(2, Outcome.TOO_CLOSE, None))
    summary = summary_of(swings)
    assert summary.outcomes == (Outcome.PASS, Outcome.TOO_CLOSE)
    (row,) = summary.rows
    assert (row.title, row.passes, row.swings, row.values) == ("knee", 1, 2, "5.4 cm, ?")
    assert summary.words == "the last 2 swings: 1 passed (knee 1 of 2)"
    assert summary_of(swings * 4).rows[0].values == ""
