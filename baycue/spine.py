"""The wiring: frames in, scored swings out, the same for a recording and a live camera.

frame -> pose -> hands -> segmentation -> (a strike) -> club -> checkpoints
      -> measures -> verdict
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from baycue.assemble import SwingMemo, assemble, settle
from baycue.glimpse import Glimpse
from baycue.measures.catalogue import measure_named
from baycue.measures.evidence import SwingEvidence
from baycue.measures.measurement import NotMeasuredError
from baycue.plan.plan import Plan
from baycue.plan.stance import View
from baycue.plan.target import Target
from baycue.pose.grip import gripped_throughout
from baycue.pose.pose import Pose
from baycue.pose.sides import stance_in_picture
from baycue.pose.untangle import untangled
from baycue.scene import PictureSize, why_too_few, why_unscorable, why_unseen
from baycue.swing.events import FinishSeen, StopSeen, StrikeSeen, ThroughSeen
from baycue.swing.second_look import less_sure_if_moved
from baycue.swing.segment import LOOK_AHEAD_NS, LOOK_THROUGH_NS
from baycue.swing.swing import Checkpoint, CheckpointName
from baycue.verdict.judge import judge_swing, judge_target
from baycue.verdict.verdict import SwingVerdict, TargetVerdict
from baycue.watch import Watch, before_takeaway_ns

_FINISH_SIGMA_NS = 200_000_000


@dataclass(frozen=True, slots=True)
class ScoredSwing:
    """A swing with its evidence and verdict.

    ``decided_ns`` is the stamp of the newest frame that the verdict used.
    """

    evidence: SwingEvidence
    verdict: SwingVerdict
    decided_ns: int

    @property
    def decided_after_impact_s(self) -> float | None:
        """How far past impact the verdict looked, s."""
        impact = self.evidence.swing.at(CheckpointName.IMPACT)
        return (self.decided_ns - impact.time_ns) * 1e-9 if impact else None


@dataclass(frozen=True, slots=True)
class UnscorableSwing:
    """A swing that was seen and cannot be judged; ``reason`` says what to do about it."""

    number: int
    reason: str


@dataclass(frozen=True, slots=True)
class FinishedSwing:
    """The scored swing again, now with its P8 or finish; its verdict is unchanged."""

    scored: ScoredSwing


SwingNews = ScoredSwing | UnscorableSwing | FinishedSwing


def swing_news(seen: Iterable[Glimpse], plan: Plan) -> Iterator[SwingNews]:
    """Tell of each swing as soon as it has come back to the ball, and again of its finish."""
    watch, number, last, strike = Watch(), 0, None, None
    for glimpse in seen:
        watch, event = watch.after(glimpse, look_ahead_ns(plan))
        if isinstance(event, StrikeSeen):
            number, strike = number + 1, event
            last = score_swing(number, event, watch.memory, plan)
            yield last
        elif isinstance(event, StopSeen):
            strike = None
        elif event and strike and isinstance(last, ScoredSwing):
            last, before = seen_on(last, strike, event, watch.memory, plan), last
            if last is not before:
                yield FinishedSwing(last)


def look_ahead_ns(plan: Plan) -> int:
    """How long past the hands' passing the ball this plan's targets need to see."""
    return LOOK_THROUGH_NS if _asks_of_p8(plan) else LOOK_AHEAD_NS


def _asks_of_p8(plan: Plan) -> bool:
    return any(CheckpointName.P8 in target.when.names for target in plan.targets)


def score_swing(
    number: int,
    strike: StrikeSeen,
    memory: tuple[Glimpse, ...],
    plan: Plan,
    memo: SwingMemo | None = None,
) -> ScoredSwing | UnscorableSwing:
    """Evidence, measures and verdict of one swing, from the frames remembered.

    ``memo``: filled by ``look_early`` on the same swing; the answer is the same without it.
    """
    seen = _of_this_swing(strike, memory, plan)
    poses = tuple(g.pose for g in seen if g.pose)
    stance = stance_in_picture(plan.handedness, plan.camera.mirrored)
    size = PictureSize(seen[0].width_px, seen[0].height_px)
    reason = (
        why_unseen(strike, [p.stamp_ns for p in poses])
        or why_too_few(strike, [g.stamp_ns for g in memory])
        or why_unscorable(strike, poses, plan, stance, size)
    )
    if reason:
        return UnscorableSwing(number, reason)
    evidence = assemble(number, strike, seen, plan, stance, memo)
    if not _asks_of_p8(plan):
        evidence = _without_p8(evidence)
    answers = [answer(target, evidence) for target in plan.targets]
    return ScoredSwing(evidence, judge_swing(number, answers), seen[-1].stamp_ns)


def _without_p8(evidence: SwingEvidence) -> SwingEvidence:
    """Where hardly a picture is past P8 yet, those that come later tell it better."""
    known = tuple(c for c in evidence.swing.checkpoints if c.name is not CheckpointName.P8)
    return replace(evidence, swing=replace(evidence.swing, checkpoints=known))


def look_early(
    strike: StrikeSeen,
    memory: tuple[Glimpse, ...],
    plan: Plan,
    memo: SwingMemo,
    guessed: int = 0,
    ends: bool = False,
) -> None:
    """From the top on: work out what can be known already, for ``score_swing``.

    ``strike``: as far as the swing has come.  ``guessed``: so many glimpses at the end of
    ``memory`` have a guess for a pose; what hangs on their pictures alone is worked out.
    ``ends``: all have come that others wait for.
    """
    seen = _of_this_swing(strike, memory, plan)
    if len(seen) > guessed and plan.view is View.FACE_ON:
        stance = stance_in_picture(plan.handedness, plan.camera.mirrored)
        settle(strike, seen, stance, memo, guessed, ends)


def _of_this_swing(
    strike: StrikeSeen, memory: tuple[Glimpse, ...], plan: Plan
) -> tuple[Glimpse, ...]:
    """The glimpses of the golfer from just before takeaway on, hands and sides put right."""
    since = strike.takeaway_ns - before_takeaway_ns(plan.view)
    until = strike.until_ns or memory[-1].stamp_ns
    golfer = [g for g in memory if g.pose and since <= g.stamp_ns <= until]
    right = mended([g.pose for g in golfer if g.pose], plan)
    both = zip(golfer, right, strict=True)
    return tuple(g if pose is g.pose else replace(g, pose=pose) for g, pose in both)


def mended(poses: Sequence[Pose], plan: Plan) -> tuple[Pose, ...]:
    """One golfer's poses in order of time, with sides and hands put right."""
    if plan.view is View.FACE_ON:
        poses = [untangled(pose) for pose in poses]
    return tuple(gripped_throughout(poses))


def answer(target: Target, evidence: SwingEvidence) -> TargetVerdict:
    """Measure what a target asks and judge it."""
    measure = measure_named(target.measure)
    assert measure is not None, "plans are checked against the catalogue"
    try:
        measurement = measure.take(evidence, target.when)
    except NotMeasuredError as reason:
        return judge_target(target, None, str(reason))
    return judge_target(target, measurement)


def seen_on(
    scored: ScoredSwing,
    strike: StrikeSeen,
    event: ThroughSeen | FinishSeen,
    memory: tuple[Glimpse, ...],
    plan: Plan,
    memo: SwingMemo | None = None,
) -> ScoredSwing:
    """The same swing with its P8 or finish; the verdict, given already, does not change."""
    later: Checkpoint | None
    if isinstance(event, FinishSeen):
        later = Checkpoint(CheckpointName.FINISH, event.finish_ns, _FINISH_SIGMA_NS)
    else:
        later = _p8(scored, strike, memory, plan, memo)
    swing = scored.evidence.swing
    if later is None or swing.at(later.name):
        return scored
    whole = replace(swing, checkpoints=(*swing.checkpoints, later))
    return replace(scored, evidence=replace(scored.evidence, swing=whole))


def _p8(
    scored: ScoredSwing,
    strike: StrikeSeen,
    memory: tuple[Glimpse, ...],
    plan: Plan,
    memo: SwingMemo | None,
) -> Checkpoint | None:
    """P8 from pictures that were not there yet when the verdict was given."""
    seen = _of_this_swing(strike, memory, plan)
    whole = assemble(scored.verdict.swing_number, strike, seen, plan, scored.evidence.stance, memo)
    p8 = whole.swing.at(CheckpointName.P8)
    return p8 and less_sure_if_moved(p8, scored.evidence.swing, whole.swing)
