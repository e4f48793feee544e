"""By which plan, and which go of its practice, the next swing is judged."""

import time

from baycue.live.parts import Parts
from baycue.live.view import Stage


def take_saved_plans(parts: Parts) -> None:
    """Heed what the coach has saved, between two swings."""
    between = parts.analysis.stage is not Stage.SWING and not parts.analysis.scoring
    saved = parts.plans.look(time.monotonic_ns(), between)
    if saved is not None:
        parts.practices.take(parts.plans.number, saved)
    follow_practice(parts)


def turn_over(parts: Parts) -> None:
    """On to the next plan."""
    if parts.practice is not None:
        parts.practice.be_quiet()
    plan = parts.plans.turn_over()
    parts.practices.take(parts.plans.number, plan)
    follow_practice(parts)


def follow_practice(parts: Parts) -> None:
    """Have the next swing judged by what the next go asks for."""
    practice = parts.practice
    parts.analysis.drilling = practice
    parts.analysis.plan = practice.plan if practice else parts.plans.plan
    news = practice.news() if practice else None
    if news is not None:
        parts.means.say(news)
