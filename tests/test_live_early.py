"""The work done while the club comes down: the same answers, and less left to do."""

import threading
import time
from dataclasses import dataclass
from functools import cache, partial
from typing import Any

import numpy as np
import pytest

from baycue.assemble import SwingMemo
from baycue.club.look import Look, look_at
from baycue.glimpse import Glimpse
from baycue.live.early import EarlyLooks
from baycue.live.fill_in import filled_in, settled
from baycue.live.still import Still
from baycue.live.worker import Worker
from baycue.spine import ScoredSwing, mended, score_swing
from baycue.swing.segment import StrikeSeen
from baycue.watch import BEFORE_TAKEAWAY_NS, Watch
from tests.filmed_swing import later
from tests.test_live_fill_in import filmed, stills
from tests.test_spine import plan_with


class TestWorker:
    def test_a_newer_task_replaces_the_one_that_waits(self) -> None:
        begun, go_on, done = threading.Event(), threading.Event(), list[int]()

        def do(task: int) -> None:
            begun.set()
            go_on.wait(10)
            done.append(task)

        worker = Worker(do, "test")
        worker.ask(1)
        begun.wait(10)
        worker.ask(2)
        worker.ask(3)
        go_on.set()
        while len(done) < 2:
            begun.wait(0.01)
        worker.close()
        assert done == [1, 3]

    def test_settling_drops_what_waits_and_sees_what_is_begun_to_its_end(self) -> None:
        begun, go_on, done = threading.Event(), threading.Event(), list[int]()

        def do(task: int) -> None:
            begun.set()
            go_on.wait(10)
            done.append(task)

        worker = Worker(do, "test")
        worker.ask(1)
        begun.wait(10)
        worker.ask(2)
        threading.Timer(0.05, go_on.set).start()
        worker.settle()
        assert done == [1]
        worker.close()
        assert done == [1]

    def test_a_task_that_fails_is_no_end(self) -> None:
        done = threading.Event()

        def do(task: int) -> None:
            if task == 1:
                raise ValueError("a fault of ours")
            done.set()

        worker = Worker(do, "test")
        worker.ask(1)
        worker.settle()
        worker.ask(2)
        assert done.wait(10)
        worker.close()
        # The first may have been dropped by settling before it began.
        assert worker.error is None or str(worker.error) == "a fault of ours"


@pytest.mark.parametrize("step", [1, 2, 3])
def test_what_is_settled_stays_as_it_is_when_the_next_pose_comes(step: int) -> None:
    posed, pictures = filmed()[::step][:24], stills(filmed())
    for count in range(5, len(posed)):
        now = settled(filled_in(posed[:count], pictures, 0), posed[:count])
        then = filled_in(posed[: count + 1], pictures, 0)
        assert len(now) >= step * (count - 2) + 1
        for mine, theirs in zip(now, then, strict=False):
            assert mine.stamp_ns == theirs.stamp_ns
            assert mine.pose is not None
            assert theirs.pose is not None
            assert np.array_equal(mine.pose.pixels, theirs.pose.pixels)


@dataclass(frozen=True)
class CameDown:
    """A swing as the live loop has it at the strike; ``memo``: of the early looks."""

    strike: StrikeSeen
    seen: tuple[Glimpse, ...]
    memo: SwingMemo | None


PLAN = plan_with()


@cache
def followed(step: int) -> CameDown:
    """Follow a swing at 60 frames a second, every ``step``-th posed, to its strike."""
    watch, now_ns = Watch(), 0

    def between(since_ns: int, until_ns: int) -> tuple[Still, ...]:
        last_ns = min(until_ns, now_ns)
        return tuple(s for s in stills(filmed()) if since_ns <= s.stamp_ns <= last_ns)

    early = EarlyLooks(between)
    for glimpse in filmed()[::step]:
        now_ns = glimpse.stamp_ns
        watch, event = watch.after(glimpse)
        if isinstance(event, StrikeSeen):
            memo = early.memo_for(PLAN)
            early.close()
            assert early.error is None
            since_ns = event.takeaway_ns - BEFORE_TAKEAWAY_NS
            mend = partial(mended, plan=PLAN)
            seen = filled_in(watch.memory, between(since_ns, now_ns), since_ns, mend)
            return CameDown(event, seen, memo)
        early.follow(watch, PLAN)
        time.sleep(0.02)  # for the next picture
    raise AssertionError("no strike was seen")


@pytest.mark.parametrize("step", [1, 2])
def test_the_answer_is_the_same(step: int) -> None:
    down = followed(step)
    assert down.memo is not None
    early, late = (score_swing(1, down.strike, down.seen, PLAN, m) for m in (down.memo, None))
    assert isinstance(early, ScoredSwing)
    assert isinstance(late, ScoredSwing)
    assert early.verdict == late.verdict
    assert early.evidence.shaft == late.evidence.shaft
    assert early.evidence.swing == late.evidence.swing


@pytest.mark.parametrize("step", [1, 2])
def test_most_pictures_have_been_looked_at_before_the_strike(
    step: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is left: the last few, whose neighbours had not come, and those since the top."""
    down, looked = followed(step), list[int]()

    def counted(*given: Any) -> Look:
        looked.append(given[1])
        return look_at(*given)

    monkeypatch.setattr("baycue.club.track.look_at", counted)
    score_swing(1, down.strike, down.seen, PLAN, down.memo)
    assert len(looked) < len(down.seen) / 2


def test_each_swing_has_its_own_memo() -> None:
    seen, watch, memos = filmed(), Watch(), list[SwingMemo | None]()
    early = EarlyLooks(lambda since_ns, until_ns: ())
    for glimpse in (*seen, *later(seen, seen[-1].stamp_ns + 1_000_000_000)):
        watch, event = watch.after(glimpse)
        if isinstance(event, StrikeSeen):
            memos.append(early.memo_for(PLAN))
        else:
            early.follow(watch, PLAN)
    early.close()
    first, second = memos
    assert first is not None
    assert second is not None
    assert first is not second


def test_another_plan_knows_nothing() -> None:
    early = EarlyLooks(lambda since_ns, until_ns: ())
    early.follow(Watch(), PLAN)
    assert early.memo_for(PLAN) is None
    early.close()
