"""Answers come over as they were."""

import pickle
from dataclasses import fields

import numpy as np

from baycue.live.desk import Desk, Scoring
from baycue.live.reply import Packed, Reply, packed
from baycue.pose.pose import Pose
from baycue.spine import FinishedSwing, ScoredSwing, UnscorableSwing
from tests.followed_swing import steps
from tests.test_spine import plan_with

PLAN = plan_with()


def scored() -> Scoring:
    desk = Desk()
    for step in steps(2):
        desk.take(step.shown, PLAN)
        if step.struck:
            return desk.score(step.struck)
    raise AssertionError("no strike was seen")


def sent(reply: Reply) -> Reply:
    over: Packed = pickle.loads(pickle.dumps(packed(reply)))
    return over.unpacked()


def assert_same(mine: ScoredSwing, theirs: ScoredSwing) -> None:
    assert mine.verdict == theirs.verdict
    assert mine.evidence.shaft == theirs.evidence.shaft
    assert len(mine.evidence.poses) == len(theirs.evidence.poses) > 20
    for one, other in zip(mine.evidence.poses, theirs.evidence.poses, strict=True):
        for field in fields(Pose):
            assert np.array_equal(getattr(one, field.name), getattr(other, field.name))


def test_a_scored_swing_comes_over_with_its_poses() -> None:
    reply = scored()
    over = sent(reply)
    assert isinstance(over, Scoring)
    assert isinstance(over.swing, ScoredSwing)
    assert isinstance(reply.swing, ScoredSwing)
    assert over.timing == reply.timing
    assert_same(over.swing, reply.swing)


def test_a_swing_that_has_gone_on_comes_over_with_its_poses() -> None:
    swing = scored().swing
    assert isinstance(swing, ScoredSwing)
    over = sent(FinishedSwing(swing))
    assert isinstance(over, FinishedSwing)
    assert_same(over.scored, swing)


def test_a_swing_that_cannot_be_judged_comes_over() -> None:
    timing = scored().timing
    reply = Scoring(UnscorableSwing(3, "the feet are out of the picture"), timing)
    assert sent(reply) == reply


def test_a_few_arrays_are_sent_however_many_poses() -> None:
    packing = packed(scored())
    assert packing.poses is not None
    assert packing.poses.pixels.shape == (len(packing.poses.stamps_ns), 33, 2)
    assert isinstance(packing.reply, Scoring)
    assert isinstance(packing.reply.swing, ScoredSwing)
    assert packing.reply.swing.evidence.poses == ()
