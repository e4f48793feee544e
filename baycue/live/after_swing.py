"""What follows once a swing has been judged, or a hold counts."""

from functools import partial

from baycue.ear.impact import Struck
from baycue.keep.keeper import ToldSwing
from baycue.live.parts import Parts
from baycue.live.timing import SwingTiming
from baycue.plan.plan import Plan
from baycue.practice.schedule import TELL, Answer
from baycue.spine import ScoredSwing, UnscorableSwing
from baycue.swing.swing import CheckpointName
from baycue.verdict.verdict import Outcome


def swing_known(
    parts: Parts, swing: ScoredSwing | UnscorableSwing, timing: SwingTiming, plan: Plan
) -> None:
    """A swing has been scored by a plan; called by the analysis thread."""
    practice = parts.practice
    hears = practice is None or practice.has_ball
    if isinstance(swing, ScoredSwing) and hears:
        impact = swing.evidence.swing.at(CheckpointName.IMPACT)
        parts.listening.seen(swing.verdict.swing_number, impact)
    answer = practice.judged(swing, parts.analysis.stopped) if practice else TELL
    parts.answers.known(swing, timing, answer)
    text, drill = parts.plans.written(plan)
    _offer_replay(parts, swing, plan.student, text.name)
    times_ns = timing.impact_ns, timing.scored_ns
    go = practice.counted if practice else None
    parts.keeper.known(ToldSwing(plan.student, text, swing, *times_ns, drill, go))


def _offer_replay(
    parts: Parts, swing: ScoredSwing | UnscorableSwing, student: str, plan: str
) -> None:
    if isinstance(swing, ScoredSwing):
        number = swing.verdict.swing_number
        parts.again.known(swing, partial(parts.replay.others, student, plan, number))
    else:
        parts.again.known(None)


def heed_microphone(parts: Parts) -> None:
    """Tell of the strike that has been heard; without a ball it does not count."""
    heard = parts.listening.heard()
    if heard is not None:
        parts.means.say(heard.line)
        if heard.impact.struck is Struck.PRACTICE:
            parts.answers.no_ball(heard.number)


def heed_scorer(parts: Parts) -> None:
    """Take the swings whose P8 and finish are known by now."""
    for line in parts.scorer.notices():
        parts.means.say(line)
    for swing in parts.scorer.finished():
        parts.answers.finished(swing.scored)
        poses = parts.analysis.poses_since(swing.scored.decided_ns)
        parts.again.finished(swing.scored, poses)
        parts.keeper.finished(swing.scored, poses)


def hold_counts(parts: Parts, left: Answer | None) -> None:
    """A hold counts; called by the analysis thread."""
    parts.answers.sound(Outcome.PASS)
    parts.means.say("held: it counts")
    sum_up(parts, left)


def sum_up(parts: Parts, left: Answer | None) -> None:
    """Have what a block that is over has left told together; None: nothing is left."""
    if left is not None:
        parts.answers.sum_up(left.summed)
