"""The way through a session: what is next, how much is done, when to rest.

A pure fold: what has happened and the time are handed in.
"""

from dataclasses import dataclass, replace

import numpy as np

from baycue.plan.practice import PlanPractice
from baycue.plan.practice_block import PracticeBlock, PracticeDrill
from baycue.plan.practice_fields import Order


@dataclass(frozen=True, slots=True)
class Go:
    """One go at a drill: the block's place in the session and the drill's in the block."""

    block: int
    drill: int


def goes_of(practice: PlanPractice) -> tuple[Go, ...]:
    """Every go of the session in order; mixed ones are drawn from the plan's seed."""
    return tuple(
        Go(number, drill)
        for number, block in enumerate(practice.blocks)
        for drill in _ordered(block, (practice.seed, number))
    )


def _ordered(block: PracticeBlock, seed: tuple[int, ...]) -> list[int]:
    """The drills' places, each as often as it counts."""
    counts = [drill.count for drill in block.drills]
    blocked = [place for place, count in enumerate(counts) for _ in range(count)]
    if block.order is Order.RANDOM:
        return [blocked[int(k)] for k in np.random.default_rng(seed).permutation(len(blocked))]
    if block.order is Order.SERIAL:
        return [p for turn in range(max(counts)) for p, count in enumerate(counts) if turn < count]
    return blocked


@dataclass(frozen=True, slots=True)
class Walk:
    """Where a golfer is in a session.

    ``number``: the go that is next, from 0; ``done``: goes done per block, for some are skipped.
    ``rest_until_ns``: until when to rest; None while there is no rest.
    """

    practice: PlanPractice
    goes: tuple[Go, ...]
    done: tuple[int, ...]
    number: int = 0
    rest_until_ns: int | None = None

    @property
    def go(self) -> Go | None:
        """What is next; None when all is done."""
        return self.goes[self.number] if self.number < len(self.goes) else None

    @property
    def block(self) -> PracticeBlock | None:
        """The block that it belongs to."""
        return self.practice.blocks[self.go.block] if self.go else None

    @property
    def drill(self) -> PracticeDrill | None:
        """The drill that it is of."""
        return self.block.drills[self.go.drill] if self.go and self.block else None

    @property
    def done_in_block(self) -> int:
        """Goes done in the block that is on."""
        return self.done[self.go.block] if self.go else 0

    @property
    def is_new_drill(self) -> bool:
        """Whether what is next is not what was just done."""
        return self.number == 0 or self.go != self.goes[self.number - 1]

    def after_go(self, now_ns: int) -> "Walk":
        """One go done, also one done while there was time to rest."""
        if self.go is None:
            return self
        done = tuple(d + (k == self.go.block) for k, d in enumerate(self.done))
        return replace(self, done=done)._moved(self.number + 1, now_ns)

    def skipped(self, now_ns: int) -> "Walk":
        """A rest cut short, or one go left out."""
        if self.rest_until_ns is not None or self.go is None:
            return replace(self, rest_until_ns=None)
        return self._moved(self.number + 1, now_ns)

    def block_skipped(self) -> "Walk":
        """The rest of the block left out, and its rest too."""
        if self.go is None:
            return self
        here = self.go.block
        following = (k for k, go in enumerate(self.goes) if go.block > here)
        return replace(self, number=next(following, len(self.goes)), rest_until_ns=None)

    def at(self, now_ns: int) -> "Walk":
        """The same at a time: a rest may be over."""
        over = self.rest_until_ns is not None and now_ns >= self.rest_until_ns
        return replace(self, rest_until_ns=None) if over else self

    def _moved(self, number: int, now_ns: int) -> "Walk":
        """On to a go; a block that ends with it brings its rest."""
        before, moved = self.block, replace(self, number=number, rest_until_ns=None)
        if before is None or before.rest is None or moved.go is None or moved.block is before:
            return moved
        return replace(moved, rest_until_ns=now_ns + round(before.rest * 1e9))


def walk_through(practice: PlanPractice) -> Walk:
    """At the start of a session."""
    return Walk(practice, goes_of(practice), (0,) * len(practice.blocks))
