"""Judging kept swings again, by another plan, from what was found in them and without the film."""

from dataclasses import dataclass, replace

from baycue.bay.board_page import CHECK_LINE_MM
from baycue.errors import OtherViewError
from baycue.keep.record import DrillPlace, SwingRecord
from baycue.measures.evidence import SwingEvidence
from baycue.measures.ruler import NO_RULER, Ruler
from baycue.plan.camera_facts import ScaleBy
from baycue.plan.plan import Plan
from baycue.plan.target import Target
from baycue.pose.sides import stance_in_picture
from baycue.spine import answer
from baycue.verdict.judge import judge_swing
from baycue.verdict.verdict import SwingVerdict, TargetVerdict


@dataclass(frozen=True, slots=True)
class Change:
    """A swing judged before and again; equal where nothing has changed."""

    record: SwingRecord
    before: SwingVerdict
    after: SwingVerdict

    @property
    def outcome_changed(self) -> bool:
        """Whether the whole swing is answered otherwise."""
        return self.before.outcome is not self.after.outcome

    @property
    def changed(self) -> bool:
        """Whether anything is, down to a reason's wording."""
        return self.before != self.after

    @property
    def targets(self) -> tuple[tuple[TargetVerdict | None, TargetVerdict | None], ...]:
        """Targets answered otherwise, before and after, by name; None where one has none."""
        before = {t.target_name: t for t in self.before.targets}
        after = {t.target_name: t for t in self.after.targets}
        names = [*before, *(name for name in after if name not in before)]
        pairs = [(before.get(name), after.get(name)) for name in names]
        return tuple((a, b) for a, b in pairs if not (a and b and a.outcome is b.outcome))


def rescored(record: SwingRecord, plan: Plan) -> Change | None:
    """Judge a kept swing by ``plan``; None for one that could not be judged when it was seen.

    By the plan that it was judged by the verdict is the same to the last bit, as long as the
    program is the same.  SceneError if the plan is for another view or side.
    """
    if record.scored is None:
        return None
    evidence = evidence_for(record.scored.evidence, plan)
    answers = [answer(target, evidence) for target in targets_at(plan, record.drill)]
    before = record.scored.verdict
    return Change(record, before, judge_swing(before.swing_number, answers))


def targets_at(plan: Plan, place: DrillPlace | None) -> tuple[Target, ...]:
    """The plan's, or those of the drill in that place if it has its own."""
    practice = plan.practice
    if place is None or practice is None or place.block >= len(practice.blocks):
        return plan.targets
    drills = practice.blocks[place.block].drills
    own = drills[place.drill].targets if place.drill < len(drills) else None
    return own or plan.targets


def evidence_for(evidence: SwingEvidence, plan: Plan) -> SwingEvidence:
    """The evidence with the plan's own facts: stature, field of view, lens, ruler.

    What was found in the pictures stays as it was found; so does a checkpoint that only came
    after the verdict.  A stick or board that was not looked for then counts as not seen.
    """
    stance = stance_in_picture(plan.handedness, plan.camera.mirrored)
    if plan.view is not evidence.view:
        raise OtherViewError(f"was filmed {evidence.view.value}, and the plan is {plan.view.value}")
    if stance != evidence.stance:
        raise OtherViewError(
            "was filmed the other way round; the plan's handedness or mirroring is not that of "
            "the swing"
        )
    camera = replace(
        evidence.camera,
        horizontal_fov_deg=plan.camera.horizontal_fov_deg,
        lens_bow=plan.camera.lens.bow,
    )
    return replace(
        evidence, stature_m=plan.stature_m, camera=camera, ruler=_ruler(evidence.ruler, plan)
    )


def _ruler(seen: Ruler, plan: Plan) -> Ruler:
    scale = plan.scale
    if scale.by is ScaleBy.STATURE:
        return NO_RULER
    if scale.by is not seen.by:
        seen = Ruler(scale.by)
    if scale.by is ScaleBy.BOARD:
        printed = scale.check_line.value / (CHECK_LINE_MM * 1e-3) if scale.check_line else 1.0
        return replace(seen, printed_share=printed)
    gap, length = scale.in_front_of_toes, scale.length
    assert length is not None, "plans are checked"
    return replace(seen, stick_length_m=length.value, stick_in_front_m=gap.value if gap else None)
