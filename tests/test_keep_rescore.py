"""Judged again from the sidecar: the same by the same plan, to the last bit."""

from dataclasses import replace
from functools import cache

import pytest

from baycue.errors import SceneError
from baycue.keep.record import DrillPlace, SwingRecord
from baycue.keep.rescore import rescored
from baycue.keep.sidecar import packed, read_sidecar, unpacked
from baycue.live.plans import Plans, TargetSet
from baycue.plan.load import load_plan, parse_plan
from baycue.plan.plan import Plan
from baycue.recording import score_recording
from baycue.spine import ScoredSwing
from baycue.verdict.verdict import Outcome
from tests.command_line import PLANS, SAMPLES
from tests.kept_swing import DATA, PROBE, swing_record

FACE_ON = PLANS / "right_hander_knee_head_tempo.yaml"
CLIPS = {
    "knee_fail_30fps": "right_hander_knee_head_tempo",
    "left_handed_30fps": "left_hander_knee",
    "down_the_line_30fps": "down_the_line_head",
}


@cache
def scored(clip: str, plan: str) -> ScoredSwing:
    plan_file = PLANS / f"{plan}.yaml"
    return score_recording(SAMPLES / f"{clip}.mp4", load_plan(plan_file)).swings[0]


def kept(clip: str = "knee_fail_30fps", plan: str = "right_hander_knee_head_tempo") -> SwingRecord:
    """A sample's swing, written to a sidecar and read back."""
    return unpacked(packed(replace(swing_record(), scored=scored(clip, plan))), "it")


def with_targets(lines: str) -> Plan:
    text = FACE_ON.read_text(encoding="utf-8")
    return parse_plan(text[: text.index("targets:")] + "targets:\n" + lines, "changed.yaml")


@pytest.mark.parametrize("clip", sorted(CLIPS))
def test_by_the_same_plan_the_verdict_is_the_same_to_the_last_bit(clip: str) -> None:
    plan = load_plan(PLANS / f"{CLIPS[clip]}.yaml")
    change = rescored(kept(clip, CLIPS[clip]), plan)
    assert change is not None
    assert change.after == scored(clip, CLIPS[clip]).verdict
    assert not change.changed
    assert change.targets == ()
    for before, after in zip(change.before.targets, change.after.targets, strict=True):
        assert before.measurement is not None
        assert after.measurement is not None
        assert before.measurement.value.hex() == after.measurement.value.hex()
        assert before.measurement.sigma.hex() == after.measurement.sigma.hex()


def test_an_easier_bound_turns_a_fail_into_a_pass() -> None:
    change = rescored(
        kept(),
        with_targets("  - {measure: knee past ankle, at: P6, at_least: -20 cm}\n"),
    )
    assert change is not None
    assert (change.before.outcome, change.after.outcome) == (Outcome.FAIL, Outcome.PASS)
    assert change.outcome_changed
    answers = {
        (was.outcome if was else None, now.outcome if now else None) for was, now in change.targets
    }
    assert (Outcome.FAIL, Outcome.PASS) in answers
    assert (Outcome.PASS, None) in answers, "a target that is no longer asked"


def test_a_measure_that_was_not_asked_then_is_taken_now() -> None:
    change = rescored(
        kept(), with_targets("  - {measure: knee past ankle, at: impact, at_least: -50 cm}\n")
    )
    assert change is not None
    assert change.after.targets[0].measurement is not None


def test_another_stature_scales_the_value() -> None:
    text = FACE_ON.read_text(encoding="utf-8")
    taller = parse_plan(text.replace("stature: 178 cm", "stature: 196 cm"), "taller.yaml")
    change = rescored(kept(), taller)
    assert change is not None
    before, after = change.before.targets[1], change.after.targets[1]
    assert before.measurement is not None
    assert after.measurement is not None
    assert after.measurement.value == pytest.approx(before.measurement.value * 196 / 178)


def test_a_plan_of_another_view_or_side_is_refused() -> None:
    with pytest.raises(SceneError, match="was filmed face-on"):
        rescored(kept(), load_plan(PLANS / "down_the_line_head.yaml"))
    with pytest.raises(SceneError, match="the other way round"):
        rescored(kept(), load_plan(PLANS / "left_hander_knee.yaml"))


def test_what_could_not_be_judged_is_left_out() -> None:
    record = replace(swing_record(), scored=None, unscorable="the feet are cut off")
    assert rescored(record, load_plan(FACE_ON)) is None


def test_a_swing_judged_again_is_still_the_go_that_it_was() -> None:
    change = rescored(
        replace(kept(), go=PROBE),
        with_targets("  - {measure: knee past ankle, at: P6, at_least: -20 cm}\n"),
    )
    assert change is not None
    assert change.record.go == PROBE


DRILLED = """
practice:
  blocks:
    - name: at the ball
      drills:
        - {drill: full swing, count: 5}
        - drill: full swing
          count: 5
          targets: [{measure: knee past ankle, at: P6, at_least: BOUND}]
"""


def drilled(bound: str) -> Plan:
    text = FACE_ON.read_text(encoding="utf-8") + DRILLED.replace("BOUND", bound)
    return parse_plan(text, "drilled.yaml")


def test_a_drills_swing_is_judged_again_by_the_drills_own_targets() -> None:
    record = replace(kept(), drill=DrillPlace(0, 1))
    change = rescored(record, drilled("-40 cm"))
    assert change is not None
    assert [t.target_name for t in change.after.targets] == ["knee past ankle at P6"]
    assert change.after.outcome is Outcome.PASS
    for place in (DrillPlace(0, 0), DrillPlace(0, 7), DrillPlace(7, 0), None):
        other = rescored(replace(record, drill=place), drilled("-40 cm"))
        assert other is not None
        assert not other.changed, "by the plan's targets, for that drill has none of its own"


def test_it_is_kept_which_drill_a_swing_was_judged_by() -> None:
    plan = drilled("3 cm")
    assert plan.practice is not None
    plans = Plans([TargetSet("drilled", plan)], lambda line: None)
    own = plan.for_drill(plan.practice.blocks[0].drills[1])
    assert plans.written(plan)[1] is None
    assert plans.written(own) == (plans.written(plan)[0], DrillPlace(0, 1))
    assert plans.written(plan.for_drill(plan.practice.blocks[0].drills[0]))[1] is None


def near_bound(band: str = "") -> Plan:
    """Its bound is 1.15 sigmas below the knee of the swing kept."""
    scored = kept().scored
    assert scored is not None
    measured = scored.verdict.targets[0].measurement
    assert measured is not None
    bound = measured.value - 1.15 * measured.sigma
    return with_targets(
        f"  - {{measure: knee past ankle, at: P6, at_least: {bound:.6f} m{band}}}\n"
    )


def test_a_verdict_told_when_the_band_was_narrower_is_kept_and_a_new_one_has_its_own() -> None:
    """Until 26 November 2026 a plan that gave no band meant one sigma; now it means 1.3."""
    then = rescored(kept(), near_bound(", band: 1"))
    assert then is not None
    assert then.record.scored is not None
    scored = replace(then.record.scored, verdict=then.after)
    record = unpacked(packed(replace(then.record, scored=scored)), "it")
    assert record.scored is not None
    assert record.scored.verdict.outcome is Outcome.PASS, "as it was told"
    again, now = rescored(record, near_bound(", band: 1")), rescored(record, near_bound())
    assert again is not None
    assert not again.changed
    assert now is not None
    assert now.after.outcome is Outcome.TOO_CLOSE
    ((before, after),) = now.targets
    assert before is not None
    assert after is not None
    assert (before.band, after.band) == (1.0, 1.3)


def test_a_swing_kept_before_bands_were_noted_reads_as_having_none() -> None:
    old = read_sidecar(DATA / "swing_v1.json.gz").scored
    assert old is not None
    assert [target.band for target in old.verdict.targets] == [None] * len(old.verdict.targets)
