"""A session under way: the plan, the way through it, what is told, what has been passed.

A pure fold: swings, holds, skips and the time are handed in.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Protocol

from baycue.plan.plan import Plan
from baycue.plan.practice_block import PracticeDrill
from baycue.practice.drill import Drill, Ends
from baycue.practice.history import RememberedPasses
from baycue.practice.schedule import TELL, Answer, Schedule, Telling
from baycue.practice.schedules import schedule_named
from baycue.practice.schedules.plain import EVERY_SWING, SILENT
from baycue.practice.walk import Walk, walk_through
from baycue.practice.wilson import wilson_interval
from baycue.verdict.verdict import Outcome, SwingVerdict

_NOT_COUNTED = Answer(Telling.WITHHOLD)


@dataclass(frozen=True, slots=True)
class Probed:
    """A swing of a silent block: the block's place in the session, its title, the outcome."""

    block: int
    title: str
    outcome: Outcome


class Gone(Protocol):
    """A go that was judged in a session before it was cut off."""

    @property
    def block(self) -> int:
        """Its block's place in the session."""

    @property
    def title(self) -> str:
        """Its block's title."""

    @property
    def probe(self) -> bool:
        """Whether the block was silent."""

    @property
    def verdict(self) -> SwingVerdict:
        """The answer."""


@dataclass(frozen=True, slots=True)
class Practice:
    """``history``: the swings of this session; ``probed``: those of silent blocks.

    Past the last go every swing is told.
    """

    plan: Plan
    walk: Walk
    schedule: Schedule
    history: RememberedPasses = field(default_factory=RememberedPasses)
    probed: tuple[Probed, ...] = ()

    @property
    def drill(self) -> PracticeDrill | None:
        """What is next; None when all is done."""
        return self.walk.drill

    @property
    def kind(self) -> Drill | None:
        """The drill that it is of."""
        return self.drill.kind if self.drill else None

    @property
    def ends(self) -> Ends:
        """What completes the next go."""
        return self.kind.ends if self.kind else Ends.STRIKE

    @property
    def judged_by(self) -> Plan:
        """The plan with the targets of the next go."""
        return self.plan.for_drill(self.drill) if self.drill else self.plan

    @property
    def is_silent(self) -> bool:
        """Whether a probe is on, in which nothing may be told."""
        return bool(self.walk.block and self.walk.block.feedback.show == SILENT)

    def after_swing(
        self, verdict: SwingVerdict, stops: bool, now_ns: int
    ) -> tuple["Practice", Answer]:
        """A swing judged; ``stops``: it ended at the ball.  One of another kind counts nothing."""
        targets = self.judged_by.targets
        history = self.history.with_swing(self.plan.student, targets, verdict)
        kept = replace(self, history=history)
        if self.drill is None:
            return kept, TELL
        if not self.counts(stops):
            return kept, _NOT_COUNTED
        schedule, answer = self.schedule.after(verdict)
        kept = replace(kept, schedule=schedule, probed=(*self.probed, *self._probe(verdict)))
        moved, left = kept.after_go(now_ns)
        return moved, left if left and answer.telling is Telling.WITHHOLD else answer

    def counts(self, stops: bool) -> bool:
        """Whether a swing is what the next go asks for."""
        return self.ends is (Ends.GROUND if stops else Ends.STRIKE)

    def after_go(self, now_ns: int) -> tuple["Practice", Answer | None]:
        """One go done; what is to be summed up if the block is over."""
        return self._moved(self.walk.after_go(now_ns))

    def skipped(self, now_ns: int) -> tuple["Practice", Answer | None]:
        """A rest or a go left out."""
        return self._moved(self.walk.skipped(now_ns))

    def block_skipped(self) -> tuple["Practice", Answer | None]:
        """The rest of a block left out."""
        return self._moved(self.walk.block_skipped())

    def at(self, now_ns: int) -> "Practice":
        """The same at a time."""
        return replace(self, walk=self.walk.at(now_ns))

    def going_on(self, walk: Walk, gone: Sequence[Gone]) -> "Practice":
        """Another time at a place further on, after the goes that were judged before."""
        schedule = schedule_at(walk)
        for each in gone:
            if walk.go is not None and each.block == walk.go.block:
                schedule, _ = schedule.after(each.verdict)
        probed = tuple(
            Probed(each.block, each.title, each.verdict.outcome) for each in gone if each.probe
        )
        return replace(self, walk=walk, schedule=schedule, probed=probed)

    @property
    def retention(self) -> tuple[str, ...]:
        """How each silent block went, a line each: for the coach, not for the golfer's screen."""
        blocks = dict.fromkeys((swing.block, swing.title) for swing in self.probed)
        return tuple(self._retained(*block) for block in blocks)

    def _retained(self, block: int, title: str) -> str:
        outcomes = [swing.outcome for swing in self.probed if swing.block == block]
        passes, swings = outcomes.count(Outcome.PASS), len(outcomes)
        ends = wilson_interval(passes, swings)
        return (
            f"silent block {block + 1}, {title}: {passes} of {swings} passed, a rate of "
            f"{100 * ends.low:.0f} to {100 * ends.high:.0f} % by the 95 % interval"
        )

    def _probe(self, verdict: SwingVerdict) -> tuple[Probed, ...]:
        go, block = self.walk.go, self.walk.block
        if not self.is_silent or go is None or block is None:
            return ()
        return (Probed(go.block, block.title, verdict.outcome),)

    def _moved(self, walk: Walk) -> tuple["Practice", Answer | None]:
        if walk.block is self.walk.block:
            return replace(self, walk=walk), None
        left = self.schedule.left_over()
        answer = Answer(Telling.SUM_UP, left) if left else None
        return replace(self, walk=walk, schedule=schedule_at(walk)), answer


def schedule_at(walk: Walk) -> Schedule:
    """The schedule of the block that is on, at its start."""
    if walk.block is None or walk.go is None:
        return EVERY_SWING
    kind = schedule_named(walk.block.feedback.show)
    assert kind is not None, "plans are checked: a schedule is known"
    seed = (walk.practice.seed, walk.go.block)
    return kind.start(walk.block.feedback.settings(walk.block.judged, seed))


def practice_of(plan: Plan) -> Practice | None:
    """A session at its start; None for a plan without a practice section."""
    if plan.practice is None:
        return None
    walk = walk_through(plan.practice)
    return Practice(plan, walk, schedule_at(walk))
