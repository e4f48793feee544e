"""The way through a session."""

from collections import Counter

import pytest

from baycue.practice.walk import Walk, goes_of, walk_through
from tests.practice_plans import practice_plan

S = 1_000_000_000
MIXED = """\
  seed: {seed}
  blocks:
    - drills:
        - {{drill: full swing, count: 5}}
        - {{drill: under a low cane, count: 3}}
        - {{drill: into the ground, count: 1}}
      order: {order}
"""
TWO_BLOCKS = """\
  blocks:
    - name: warm-up
      drills: [{drill: rehearse and hold, at: P6, hold: 2 s, count: 2}]
      rest: 30 s
    - drills: [{drill: full swing, count: 2}]
      rest: 60 s
"""


def mixed(order: str, seed: int = 1) -> list[int]:
    practice = practice_plan(MIXED.format(order=order, seed=seed)).practice
    assert practice is not None
    return [go.drill for go in goes_of(practice)]


def started() -> Walk:
    practice = practice_plan(TWO_BLOCKS).practice
    assert practice is not None
    return walk_through(practice)


class TestOrder:
    def test_blocked_finishes_one_drill_before_the_next(self) -> None:
        assert mixed("blocked") == [0] * 5 + [1] * 3 + [2]

    def test_in_turn_goes_round(self) -> None:
        assert mixed("in turn") == [0, 1, 2, 0, 1, 0, 1, 0, 0]

    @pytest.mark.parametrize("seed", range(20))
    def test_random_keeps_every_count(self, seed: int) -> None:
        assert Counter(mixed("random", seed)) == {0: 5, 1: 3, 2: 1}

    def test_random_is_drawn_from_the_seed(self) -> None:
        assert mixed("random", 3) == mixed("random", 3)
        assert len({tuple(mixed("random", seed)) for seed in range(20)}) > 10


class TestTheWay:
    def test_go_by_go_to_the_end(self) -> None:
        walk, seen = started(), []
        for second in range(4):
            assert walk.block is not None
            seen.append((walk.block.title, walk.done_in_block, walk.is_new_drill))
            walk = walk.after_go(second * S)
        assert seen == [
            ("warm-up", 0, True),
            ("warm-up", 1, False),
            ("full swing", 0, True),
            ("full swing", 1, False),
        ]
        assert walk.go is None
        assert walk.drill is None
        assert walk.done == (2, 2)
        assert walk.after_go(9 * S) == walk

    def test_a_block_ends_with_its_rest_and_the_last_with_none(self) -> None:
        walk = started().after_go(10 * S)
        assert walk.rest_until_ns is None
        walk = walk.after_go(20 * S)
        assert walk.rest_until_ns == 50 * S
        assert walk.at(49 * S).rest_until_ns == 50 * S
        assert walk.at(50 * S).rest_until_ns is None
        assert walk.after_go(21 * S).after_go(22 * S).rest_until_ns is None

    def test_who_swings_instead_of_resting_has_rested(self) -> None:
        walk = started().after_go(0).after_go(0).after_go(5 * S)
        assert (walk.rest_until_ns, walk.done) == (None, (2, 1))

    def test_a_skip_ends_a_rest_first_and_then_leaves_one_out(self) -> None:
        rested = started().after_go(0).after_go(0).skipped(1)
        assert (rested.rest_until_ns, rested.number) == (None, 2)
        assert (rested.skipped(1).number, rested.skipped(1).done) == (3, (2, 0))

    def test_a_block_skipped_leaves_its_goes_and_its_rest_out(self) -> None:
        walk = started().after_go(0).block_skipped()
        assert (walk.number, walk.done, walk.rest_until_ns) == (2, (1, 0), None)
        assert walk.block_skipped().go is None
        assert walk.block_skipped().block_skipped() == walk.block_skipped()
        assert walk.block_skipped().skipped(0).go is None
