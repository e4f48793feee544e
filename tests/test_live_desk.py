"""The work done while the club comes down: the same answers, and less left to do."""

from collections.abc import Callable
from typing import Any

import pytest

from baycue.club.look import Look, look_at
from baycue.live.desk import Desk, Expected, Scoring, Shown
from baycue.live.still import Still
from baycue.spine import ScoredSwing
from baycue.swing.swing import CheckpointName
from tests.followed_swing import steps
from tests.test_spine import plan_with

PLAN = plan_with()


def scored(desk: Desk, every: int, look: Callable[[Desk], None] = lambda desk: None) -> Scoring:
    """Show a desk the swing up to its strike; ``look`` is called after each glimpse."""
    for step in steps(every):
        desk.take(step.shown, PLAN)
        if step.struck:
            return desk.score(step.struck)
        look(desk)
    raise AssertionError("no strike was seen")


def look_to_the_end(desk: Desk) -> None:
    while desk.can_look:
        desk.look()


def swing_of(scoring: Scoring) -> ScoredSwing:
    assert isinstance(scoring.swing, ScoredSwing)
    return scoring.swing


@pytest.mark.parametrize("every", [1, 2])
def test_the_answer_is_the_same(every: int) -> None:
    early = swing_of(scored(Desk(), every, look_to_the_end))
    late = swing_of(scored(Desk(), every))
    assert early.verdict == late.verdict
    assert early.evidence.shaft == late.evidence.shaft
    assert early.evidence.swing == late.evidence.swing


@pytest.mark.parametrize("every", [1, 2])
def test_most_pictures_have_been_looked_at_before_the_strike(
    every: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is left: the last few, whose neighbours had not come."""
    looked: list[int] = []

    def counted(*given: Any) -> Look:
        looked.append(given[1])
        return look_at(*given)

    monkeypatch.setattr("baycue.club.track.look_at", counted)

    def look(desk: Desk) -> None:
        look_to_the_end(desk)
        looked.clear()

    scoring = scored(Desk(), every, look)
    assert 0 < len(looked) < scoring.timing.frames / 5


def test_called_away_after_every_piece_it_gets_there_and_answers_alike() -> None:
    """Each time it is called away a piece more has been done, so it must come to an end."""
    patience = 0

    def overtaken() -> bool:
        nonlocal patience
        patience -= 1
        return patience < 0

    def look(desk: Desk) -> None:
        nonlocal patience
        for _ in range(3):
            patience = 1
            desk.look()

    desk = Desk(overtaken)
    hurried = swing_of(scored(desk, 2, look))
    assert hurried.verdict == swing_of(scored(Desk(), 2)).verdict


def test_called_away_it_leaves_the_rest_to_do() -> None:
    desk = Desk(overtaken=lambda: True)
    coming_down = next(s for s in steps() if s.shown.coming_down and not s.event)
    for step in steps():
        desk.take(step.shown, PLAN)
        if step.shown.glimpse.stamp_ns == coming_down.shown.glimpse.stamp_ns:
            break
    assert desk.can_look
    desk.look()
    assert desk.can_look, "nothing was finished"


def test_no_swing_under_way_means_nothing_to_look_at() -> None:
    desk = Desk()
    desk.take(next(steps()).shown, PLAN)
    assert not desk.can_look
    desk.look()


def test_every_frame_counts_and_only_some_were_posed() -> None:
    timing = scored(Desk(), 2).timing
    assert timing.frames == pytest.approx(2 * timing.posed, abs=2)
    assert timing.impact_ns <= timing.trigger_ns


def test_what_is_too_old_is_forgotten() -> None:
    desk = Desk()
    for step in steps():
        desk.take(step.shown, PLAN)
        assert desk.shown[0].glimpse.stamp_ns >= step.shown.oldest_ns


def finished_by(desk: Desk) -> set[CheckpointName]:
    """Which checkpoints came after the verdict."""
    found: set[CheckpointName] = set()
    for step in steps():
        desk.take(step.shown, PLAN)
        if step.struck:
            before = {c.name for c in swing_of(desk.score(step.struck)).evidence.swing.checkpoints}
        elif step.gone_on and (finished := desk.after(step.gone_on)):
            found |= {c.name for c in finished.scored.evidence.swing.checkpoints} - before
    return found


def test_p8_and_finish_are_told_when_they_are_seen() -> None:
    assert finished_by(Desk()) == {CheckpointName.P8, CheckpointName.FINISH}


def test_nothing_goes_on_without_a_swing() -> None:
    desk = Desk()
    gone_on = next(s for s in steps() if s.gone_on)
    desk.take(gone_on.shown, PLAN)
    assert gone_on.gone_on is not None
    assert desk.after(gone_on.gone_on) is None


@pytest.mark.parametrize("every", [1, 2])
def test_with_its_picture_there_before_its_pose_less_is_left_and_the_answer_is_the_same(
    every: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The last frame's picture is what the looks at those just before it wait for."""
    looked: list[int] = []

    def counted(*given: Any) -> Look:
        looked.append(given[1])
        return look_at(*given)

    monkeypatch.setattr("baycue.club.track.look_at", counted)
    left: list[int] = []
    for expecting in (True, False):
        desk = Desk()
        for step in steps(every):
            if step.struck and expecting:
                last = step.shown.glimpse
                picture = Still(last.frame_index, last.stamp_ns, last.grey)
                desk.expect(Expected((*step.shown.skipped, picture), ends=True))
                look_to_the_end(desk)
            looked.clear()
            desk.take(step.shown, PLAN)
            if step.struck:
                scoring = desk.score(step.struck)
                break
            look_to_the_end(desk)
        left.append(len(looked))
        assert swing_of(scoring).verdict == swing_of(scored(Desk(), every)).verdict
    expected, unexpected = left
    assert expected < unexpected


def test_pictures_told_as_they_come_leave_less_for_when_the_last_has_come(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Two of three frames nobody posed; each picture is told by itself, or all with the last."""
    looked: list[int] = []

    def counted(*given: Any) -> Look:
        looked.append(given[1])
        return look_at(*given)

    monkeypatch.setattr("baycue.club.track.look_at", counted)
    left: list[int] = []
    late = swing_of(scored(Desk(), 3))
    for one_by_one in (True, False):
        desk = Desk()
        for step in steps(every=3):
            pictures = stills_up_to(step.shown)
            for k in range(1, len(pictures) if one_by_one else 0):
                desk.expect(Expected(pictures[:k], ends=False))
                look_to_the_end(desk)
            if step.struck:
                looked.clear()
                desk.expect(Expected(pictures, ends=True))
                look_to_the_end(desk)
                left.append(len(looked))
            desk.take(step.shown, PLAN)
            if step.struck:
                swing = swing_of(desk.score(step.struck))
                break
            look_to_the_end(desk)
        assert swing.verdict == late.verdict
        assert swing.evidence.shaft == late.evidence.shaft
    told, untold = left
    assert told < untold


def stills_up_to(shown: Shown) -> tuple[Still, ...]:
    last = shown.glimpse
    return (*shown.skipped, Still(last.frame_index, last.stamp_ns, last.grey))
