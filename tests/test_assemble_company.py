"""Who goes in behind the golfer and does not come out before the strike is company all the same."""

from dataclasses import replace

import cv2
import pytest

from baycue.assemble import SwingMemo
from baycue.club.scenes import SHRINK
from baycue.glimpse import Glimpse
from baycue.pose.sides import LEFT, RIGHT
from baycue.spine import ScoredSwing, look_early, score_swing
from baycue.swing.events import StrikeSeen
from baycue.swing.strike_due import strike_so_far
from baycue.watch import Watch
from tests.canned_readings import seconds
from tests.test_spine import plan_with, seen_in

AT_THE_BALL_S, INTO_THE_TOP_S, DOWN_S = (-1.2, -0.9), (-0.2, 0.1), (0.16, 0.3)
WAY_BACK_S = (-0.6, -0.4)


def passed(span_s: tuple[float, float] | None) -> tuple[Glimpse, ...]:
    """The canned swing with somebody beside the golfer for a while, counted from the top."""

    def seen(glimpse: Glimpse) -> Glimpse:
        about_s = seconds(glimpse.stamp_ns)
        if span_s is None or glimpse.pose is None or not span_s[0] <= about_s <= span_s[1]:
            return glimpse
        trunk = glimpse.pose.pixels[[LEFT.shoulder, RIGHT.shoulder, RIGHT.hip, LEFT.hip]] / SHRINK
        (left, top), (_, foot) = trunk.min(axis=0), trunk.max(axis=0)
        body_px = float(foot - top)
        grey = glimpse.grey.copy()
        corner = int(left - 0.5 * body_px), int(top)
        cv2.rectangle(grey, corner, (int(left - 0.3 * body_px), int(foot)), 250, cv2.FILLED)
        return replace(glimpse, grey=grey)

    return tuple(seen(g) for g in seen_in(60))


def scored(glimpses: tuple[Glimpse, ...], early: bool = False) -> ScoredSwing:
    watch, plan, memo = Watch(), plan_with(), SwingMemo()
    for glimpse in glimpses:
        watch, event = watch.after(glimpse)
        coming_down = strike_so_far(watch.segment)
        if early and coming_down:
            look_early(coming_down, watch.memory, plan, memo)
        if isinstance(event, StrikeSeen):
            swing = score_swing(1, event, watch.memory, plan, memo)
            assert isinstance(swing, ScoredSwing)
            return swing
    raise AssertionError("no strike")


@pytest.mark.parametrize("span_s", [AT_THE_BALL_S, INTO_THE_TOP_S, DOWN_S])
def test_somebody_beside_at_the_ball_about_the_top_or_coming_down_is_company(
    span_s: tuple[float, float],
) -> None:
    assert scored(passed(span_s)).evidence.in_company


@pytest.mark.parametrize("span_s", [None, WAY_BACK_S])
def test_nobody_or_who_is_long_gone_is_none(span_s: tuple[float, float] | None) -> None:
    assert scored(passed(span_s)).evidence.beside_bodies2 == 0.0


@pytest.mark.parametrize("span_s", [None, AT_THE_BALL_S, INTO_THE_TOP_S])
def test_looked_at_early_it_is_the_same(span_s: tuple[float, float] | None) -> None:
    glimpses = passed(span_s)
    early, late = scored(glimpses, early=True), scored(glimpses)
    assert early.evidence.beside_bodies2 == late.evidence.beside_bodies2
    assert early.verdict == late.verdict
