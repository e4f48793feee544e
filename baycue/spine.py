"""The wiring: frames in, scored swings out, the same for a recording and a live camera.

frame -> pose -> hands -> segmentation -> (a strike) -> club -> checkpoints
      -> measures -> verdict
"""

from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from baycue.assemble import assemble
from baycue.glimpse import Glimpse
from baycue.measures.catalogue import measure_named
from baycue.measures.evidence import SwingEvidence
from baycue.measures.measure import NotMeasuredError
from baycue.plan.plan import Plan
from baycue.plan.stance import View
from baycue.plan.target import Target
from baycue.pose.grip import gripped_throughout
from baycue.pose.sides import stance_in_picture
from baycue.pose.untangle import untangled
from baycue.scene import PictureSize, why_unscorable
from baycue.swing.hands import HandSample, hand_sample
from baycue.swing.segment import FinishSeen, SegmentState, StrikeSeen, advance
from baycue.swing.swing import Checkpoint, CheckpointName
from baycue.verdict.judge import judge_swing, judge_target
from baycue.verdict.verdict import SwingVerdict, TargetVerdict

_REMEMBER_NS = 5_000_000_000
_BEFORE_TAKEAWAY_NS = 250_000_000
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
    """The scored swing again, now with its finish; its verdict is unchanged."""

    scored: ScoredSwing


SwingNews = ScoredSwing | UnscorableSwing | FinishedSwing


def swing_news(seen: Iterable[Glimpse], plan: Plan) -> Iterator[SwingNews]:
    """Tell of each swing as soon as it has come back to the ball, and again of its finish."""
    state, number, last = SegmentState(), 0, None
    memory: deque[Glimpse] = deque()
    for glimpse in seen:
        _remember(memory, glimpse)
        state, event = advance(state, _hands(glimpse, state))
        if isinstance(event, StrikeSeen):
            number += 1
            last = score_swing(number, event, tuple(memory), plan)
            yield last
        elif isinstance(event, FinishSeen) and isinstance(last, ScoredSwing):
            yield FinishedSwing(with_finish(last, event))


def _hands(glimpse: Glimpse, state: SegmentState) -> HandSample | None:
    return hand_sample(glimpse.pose, state.hands_on_grip_px) if glimpse.pose else None


def _remember(memory: deque[Glimpse], glimpse: Glimpse) -> None:
    memory.append(glimpse)
    while memory[0].stamp_ns < glimpse.stamp_ns - _REMEMBER_NS:
        memory.popleft()


def score_swing(
    number: int, strike: StrikeSeen, memory: tuple[Glimpse, ...], plan: Plan
) -> ScoredSwing | UnscorableSwing:
    """Evidence, measures and verdict of one swing, from the frames remembered."""
    seen = _of_this_swing(strike, memory, plan)
    poses = tuple(g.pose for g in seen if g.pose)
    stance = stance_in_picture(plan.handedness, plan.camera.mirrored)
    size = PictureSize(seen[0].width_px, seen[0].height_px)
    reason = why_unscorable(strike, poses, plan, stance, size)
    if reason:
        return UnscorableSwing(number, reason)
    evidence = assemble(number, strike, seen, plan, stance)
    answers = [answer(target, evidence) for target in plan.targets]
    return ScoredSwing(evidence, judge_swing(number, answers), seen[-1].stamp_ns)


def _of_this_swing(
    strike: StrikeSeen, memory: tuple[Glimpse, ...], plan: Plan
) -> tuple[Glimpse, ...]:
    """The glimpses of the golfer from just before takeaway on, hands and sides put right."""
    since = strike.takeaway_ns - _BEFORE_TAKEAWAY_NS
    golfer = [g for g in memory if g.pose and g.stamp_ns >= since]
    poses = [g.pose for g in golfer if g.pose]
    if plan.view is View.FACE_ON:
        poses = [untangled(pose) for pose in poses]
    held = gripped_throughout(poses)
    return tuple(replace(g, pose=pose) for g, pose in zip(golfer, held, strict=True))


def answer(target: Target, evidence: SwingEvidence) -> TargetVerdict:
    """Measure what a target asks and judge it."""
    measure = measure_named(target.measure)
    assert measure is not None, "plans are checked against the catalogue"
    try:
        measurement = measure.take(evidence, target.when)
    except NotMeasuredError as reason:
        return judge_target(target, None, str(reason))
    return judge_target(target, measurement)


def with_finish(scored: ScoredSwing, finish: FinishSeen) -> ScoredSwing:
    """The same swing with its finish; the verdict, given already, does not change."""
    checkpoint = Checkpoint(CheckpointName.FINISH, finish.finish_ns, _FINISH_SIGMA_NS)
    swing = scored.evidence.swing
    whole = replace(swing, checkpoints=(*swing.checkpoints, checkpoint))
    return replace(scored, evidence=replace(scored.evidence, swing=whole))
