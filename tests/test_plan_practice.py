"""The practice section of a plan: what a right one says, and how each wrong one is refused."""

import json

import jsonschema
import pytest
import yaml

from baycue.errors import PlanError
from baycue.measures.measurement import Unit
from baycue.plan.load import load_plan, parse_plan, plan_schema
from baycue.plan.plan import Plan
from baycue.plan.practice import PlanPractice
from baycue.plan.practice_fields import Order, TooClose
from baycue.practice.catalogue import drills
from baycue.practice.drill import Ends
from baycue.practice.schedule import Band, Settings
from baycue.swing.swing import CheckpointName
from tests.command_line import PLANS

HEAD = """\
student: Heron
handedness: right
stature: 178 cm
view: face-on
targets:
  - {measure: knee past ankle, at: P6, at_least: 5 cm}
practice:
"""
WHOLE = """\
  seed: 7
  blocks:
    - name: warm-up
      drills:
        - {drill: Rehearse and  Hold, at: P6, hold: 2 s, count: 5, butt_within: 6 cm}
      rest: 30 s
    - drills:
        - {drill: full swing, count: 6}
        - drill: under a low cane
          count: 4
          targets:
            - {measure: tempo, between: [2.5, 3.5]}
      order: random
      feedback: {show: faded, from: 100 %, to: 40 %}
    - name: probe
      drills: [{drill: full swing, count: 10}]
      feedback: silent
  progress:
    - target: knee past ankle at P6
      pass_rate: 70 %
      over: 30
      harder: {at_least: 6 cm}
    - {target: tempo, pass_rate: 60 %, confidence: 90 %, over: 25, too_close: left out}
"""
HOLD = "drill: rehearse and hold, count: 3, at: P6, hold: 2 s"


def practice_of(text: str) -> PlanPractice:
    practice = parse_plan(HEAD + text, "p").practice
    assert practice is not None
    return practice


def refusal(text: str) -> list[str]:
    with pytest.raises(PlanError) as caught:
        parse_plan(HEAD + text, "plan.yaml")
    return str(caught.value).splitlines()


def block(drill: str, more: str = "") -> str:
    return f"  blocks:\n    - drills: [{{{drill}}}]\n{more}"


def progress(rule: str) -> str:
    return block("drill: full swing, count: 5") + f"  progress:\n    - {{{rule}}}\n"


def test_a_session_says_what_the_coach_wrote() -> None:
    practice = practice_of(WHOLE)
    warm_up, mixed, probe = practice.blocks
    assert practice.seed == 7
    assert (warm_up.title, warm_up.rest, warm_up.goes, warm_up.judged) == ("warm-up", 30, 5, 0)
    (hold,) = warm_up.drills
    assert (hold.drill, hold.at, hold.hold) == ("rehearse and hold", CheckpointName.P6, 2)
    assert hold.kind.ends is Ends.HOLD
    assert hold.butt_within is not None
    assert (hold.angle_within.value, hold.butt_within.value) == (10, 0.06)
    assert (mixed.title, mixed.order) == ("full swing, under a low cane", Order.RANDOM)
    assert mixed.feedback.settings(10, (7, 1)) == Settings(10, (7, 1), 1.0, 0.4)
    assert probe.feedback.show == "silent"
    knee, tempo = practice.progress
    assert (knee.pass_rate, knee.confidence, knee.over) == (0.7, 0.95, 30)
    assert knee.too_close is TooClose.NOT_A_PASS
    assert tempo.too_close is TooClose.LEFT_OUT


def test_a_checkpoint_may_be_in_small_letters() -> None:
    (hold,) = practice_of(block(HOLD.replace("P6", "p6"))).blocks[0].drills
    assert hold.at is CheckpointName.P6


def test_without_the_section_there_is_none() -> None:
    assert parse_plan(HEAD.removesuffix("practice:\n"), "p").practice is None


def test_a_drill_may_have_targets_of_its_own() -> None:
    plan = parse_plan(HEAD + WHOLE, "p")
    assert plan.practice is not None
    full, cane = plan.practice.blocks[1].drills
    assert plan.for_drill(full) is plan
    assert [t.title for t in plan.for_drill(cane).targets] == ["tempo"]


def test_a_band_is_a_length_an_angle_or_a_number() -> None:
    text = block(
        "drill: full swing, count: 5", "      feedback: {show: only outside, band: 2 cm}\n"
    )
    settings = practice_of(text).blocks[0].feedback.settings(5, (1,))
    assert settings.band == Band(0.02, Unit.METRE)


FULL = "drill: full swing, count: 5"
FAULTY = [
    (block("drill: ful swing, count: 5"), "blocks[1].drills[1].drill", 'mean "full swing"'),
    (block("drill: full swing"), "blocks[1].drills[1].count", "missing"),
    (block("drill: full swing, count: 0"), "blocks[1].drills[1].count", "from 1 to 500"),
    (block("drill: full swing, count: 1.5"), "blocks[1].drills[1].count", "whole number"),
    (block("drill: full swing, coutn: 5, count: 5"), "blocks[1].drills[1].coutn", 'mean "count"'),
    (block("drill: full swing, count: 5, hold: 2 s"), "drills[1].hold", "through the ball"),
    (block("drill: into the ground, count: 5, at: P6"), "drills[1].at", "in the ground"),
    (block("drill: rehearse and hold, count: 3, hold: 2 s"), "drills[1].at", "missing"),
    (block("drill: rehearse and hold, count: 3, at: P6"), "drills[1].hold", "such as 2 s"),
    (block(HOLD.replace("P6", "top")), "drills[1].at", "allowed: P2, P3, P5, P6, P8"),
    (block(HOLD.replace("2 s", "2")), "drills[1].hold", "give 0.5 s to 20 s"),
    (block(f"{HOLD}, shaft_within: 6 cm"), "drills[1].shaft_within", "allowed: deg"),
    (block(f"{HOLD}, shaft_within: 1 deg"), "drills[1].shaft_within", "2 deg to 45 deg"),
    (block(f"{HOLD}, arm_within: 9 deg"), "drills[1].arm_within", 'it is "shaft_within"'),
    (block(f"{HOLD}, targets: [{{measure: tempo, at_least: 2}}]"), "drills[1].targets", "window"),
    (block(FULL, "      rest: 2 s\n"), "blocks[1].rest", "give 5 s to 900 s"),
    (block(FULL, "      order: rand\n"), "blocks[1].order", 'mean "random"'),
    (block(FULL, "      oder: random\n"), "blocks[1].oder", 'mean "order"'),
    (block(FULL, "      feedback: silence\n"), "blocks[1].feedback.show", 'mean "silent"'),
    (block(FULL, "      feedback: {show: faded, form: 50 %}\n"), "feedback.form", 'mean "from"'),
    (block(FULL, "      feedback: {show: silent, every: 5}\n"), "feedback.every", "no other key"),
    (block(FULL, "      feedback: {show: faded, every: 5}\n"), "feedback.every", "goes from, to"),
    (block(FULL, "      feedback: {show: summary, every: 1}\n"), "feedback.every", "from 2 to 50"),
    (block(FULL, "      feedback: {show: faded, from: 50}\n"), "feedback.from", "0 % to 100 %"),
    (
        block(FULL, "      feedback: {show: faded, from: 50 %, to: 60 %}\n"),
        "feedback.to",
        "more than the 50 %",
    ),
    (
        block(FULL, "      feedback: {show: only inside, band: -1 cm}\n"),
        "feedback.band",
        "negative",
    ),
    (block(HOLD, "      feedback: silent\n"), "blocks[1].feedback", "guided by its tone"),
    ("  blocks: []\n", "blocks", "has 0 blocks; allowed: 1 to 12"),
    ("  blocks:\n    - drills: []\n", "blocks[1].drills", "has 0 drills; allowed: 1 to 6"),
    ("  blocks:\n    - full swing\n", "blocks[1]", "must be a mapping"),
    ("  seed: -1\n" + block(FULL), "seed", "whole number from 0"),
    ("  sed: 1\n" + block(FULL), "sed", 'mean "seed"'),
    (
        progress("target: knee past ankle at P7, pass_rate: 70 %, over: 30"),
        "progress[1].target",
        'mean "knee past ankle at P6"',
    ),
    (
        progress("target: knee past ankle at P6, pass_rate: 70, over: 30"),
        "progress[1].pass_rate",
        "give 10 % to 95 %",
    ),
    (
        progress("target: knee past ankle at P6, pass_rate: 70 %, over: 30, too_close: maybe"),
        "progress[1].too_close",
        "allowed: not a pass, a pass, left out",
    ),
    (
        progress(
            "target: knee past ankle at P6, pass_rate: 70 %, over: 30, harder: {at_least: 4 cm}"
        ),
        "progress[1].harder",
        "is not harder",
    ),
    (
        progress(
            "target: knee past ankle at P6, pass_rate: 70 %, over: 30, harder: {at_most: 8 cm}"
        ),
        "progress[1].harder",
        "same kind",
    ),
    (
        progress("target: knee past ankle at P6, pass_rate: 70 %, over: 30, harder: {}"),
        "progress[1].harder.between",
        "no bound given",
    ),
]


@pytest.mark.parametrize(("text", "key", "said"), FAULTY)
def test_a_mistake_is_told_by_line_key_and_what_is_allowed(text: str, key: str, said: str) -> None:
    (line,) = refusal(text)
    assert line.startswith("plan.yaml:")
    assert key in line
    assert said in line


def test_the_line_is_that_of_the_mistake() -> None:
    text = "  blocks:\n    - drills:\n        - drill: full swing\n          count: none\n"
    assert refusal(text)[0].startswith(
        "plan.yaml:11: practice.blocks[1].drills[1].count:"  # the head has seven lines
    )


def test_all_mistakes_are_told_at_once() -> None:
    text = WHOLE.replace("30 s", "30").replace("random", "ransom").replace("60 %", "60")
    assert len(refusal(text)) == 3


def test_own_targets_are_checked_as_the_plans_are() -> None:
    text = block("drill: full swing, count: 5, targets: [{measure: tempo, at_lest: 3}]")
    unknown, missing = refusal(text)
    assert "drills[1].targets[1].at_lest: unknown key" in unknown + missing
    watched = "{measure: tempo, at_least: 3, watch_only: yes}"
    (line,) = refusal(block(f"drill: full swing, count: 5, targets: [{watched}]"))
    assert "drills[1].targets[1].watch_only: every target is watch_only" in line


def test_a_hold_is_not_seen_down_the_line() -> None:
    head = HEAD.replace("face-on", "down-the-line").replace(
        "{measure: knee past ankle, at: P6, at_least: 5 cm}",
        "{measure: head rise, from: address, to: impact, at_most: 4 cm}",
    )
    with pytest.raises(PlanError, match="cannot be seen down-the-line; allowed views: face-on"):
        parse_plan(head + block(HOLD), "p")


class TestEnoughSwings:
    """With n of n passed the lower limit is n / (n + 1.96^2): above 0.9 from n = 35 on."""

    @pytest.mark.parametrize("over", [10, 19])
    def test_ten_swings_luck_is_no_progress(self, over: int) -> None:
        (line,) = refusal(progress(f"target: x, pass_rate: 50 %, over: {over}"))
        assert f"{over} swings can be luck" in line
        assert "allowed: 20 or more" in line

    @pytest.mark.parametrize(("over", "allowed"), [(34, False), (35, True)])
    def test_all_passes_must_be_able_to_show_it(self, over: int, allowed: bool) -> None:
        rule = f"target: knee past ankle at P6, pass_rate: 90 %, over: {over}"
        if allowed:
            assert practice_of(progress(rule)).progress[0].over == over
        else:
            (line,) = refusal(progress(rule))
            assert "even 34 of 34 passed could not show a rate above 90 %" in line
            assert "allowed: 35 or more" in line


def test_the_schema_takes_what_the_plan_takes() -> None:
    schema = json.loads(json.dumps(plan_schema()))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(yaml.safe_load(HEAD + WHOLE), schema)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(yaml.safe_load(HEAD + "  blocks: [{drils: []}]\n"), schema)


def test_a_plan_goes_through_a_second_check_unchanged() -> None:
    plan = parse_plan(HEAD + WHOLE, "p")
    assert Plan.model_validate(plan) == plan


def test_the_examples_show_every_drill_and_every_order() -> None:
    plans = [load_plan(path) for path in sorted(PLANS.glob("*.yaml"))]
    blocks = [b for p in plans if p.practice for b in p.practice.blocks]
    assert {d.drill for b in blocks for d in b.drills} == {drill.name for drill in drills()}
    assert {"every swing", "only outside", "faded", "summary", "silent"} <= {
        b.feedback.show for b in blocks
    }
    assert any(b.order is Order.RANDOM for b in blocks)
