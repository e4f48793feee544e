"""What the screen says of a session under way, before any of it is drawn."""

from dataclasses import dataclass
from math import copysign

from baycue.live.view import LiveView, Stage
from baycue.measures.measurement import Unit
from baycue.plan.units import WrittenUnit, say
from baycue.practice.hold import Guidance
from baycue.practice.summary import Summary
from baycue.practice.view import PracticeView
from baycue.verdict.verdict import Outcome

_INSIDE, _HALF_WAY_WINDOWS = 0.25, 3.0
"""Of the gauge's half: how much the window takes; so many windows off is half-way from there."""
_STEPS = 400
_WRITTEN = {Unit.DEGREE: WrittenUnit.DEGREE, Unit.METRE: WrittenUnit.CM}
_DECIMALS = 0


@dataclass(frozen=True, slots=True)
class DrillPage:
    """Large words: what to do, and small print below.  ``stage`` gives its mark."""

    stage: Stage
    headline: str
    told: str
    small: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class HoldPage:
    """Where a golfer is who goes slowly to a checkpoint.

    ``place``: -1 to 1 on the gauge, the window from -0.25 to 0.25.  ``upright``: whether high on
    the gauge is high in the bay; else its right is toward the target.  ``held``: 0 to 1.
    """

    headline: str
    told: str
    value: str
    spread: str
    place: float
    upright: bool
    is_inside: bool
    held: float
    held_words: str


PracticePage = DrillPage | HoldPage | Summary


def practice_page(view: LiveView) -> PracticePage | None:
    """What to show of a session; None where the usual page is right."""
    practice = view.practice
    if practice is not None and practice.rest_s is not None and practice.is_next:
        return _rest_page(practice)
    if practice is not None and practice.is_next and not practice.is_over:
        return _drill_page(practice, view.stage)
    if practice is not None and practice.is_hold and view.stage is not Stage.VERDICT:
        return _hold_page(practice)
    if practice is not None and practice.is_over and view.stage is not Stage.VERDICT:
        return DrillPage(Stage.VERDICT, "PRACTICE DONE", _done_words(practice))
    if view.withheld:
        return DrillPage(view.stage, "SWING SEEN", _withheld_words(practice))
    return view.summary


def summary_words(summary: Summary) -> str:
    """``3 OF 5 PASSED``."""
    return f"{summary.outcomes.count(Outcome.PASS)} OF {len(summary.outcomes)} PASSED"


def _drill_page(practice: PracticeView, stage: Stage) -> DrillPage:
    return DrillPage(stage, practice.drill.upper(), practice.told, practice.cautions)


def _rest_page(practice: PracticeView) -> DrillPage:
    minutes, seconds = divmod(practice.rest_s or 0, 60)
    left = f"{minutes}:{seconds:02}" if minutes else f"{seconds} s"
    told = f"Next: {practice.drill}, {practice.goes} to do."
    return DrillPage(Stage.PAUSED, f"REST {left}", told, practice.cautions)


def _done_words(practice: PracticeView) -> str:
    return " ".join(f"{line}." for line in practice.progress) or "All blocks are done."


def _withheld_words(practice: PracticeView | None) -> str:
    if practice is not None and practice.is_silent:
        return "Judged and kept for your coach. Nothing is told in this block."
    return "No answer this time: how did it feel?"


def _hold_page(practice: PracticeView) -> DrillPage | HoldPage:
    guidance = practice.guidance
    if guidance is None:
        return DrillPage(Stage.WAITING, "NOBODY SEEN", practice.told, practice.cautions)
    unseen = "Club not seen: by arm and hands, not counted."
    return HoldPage(
        headline=guidance.told.upper(),
        told=practice.told.partition(". ")[0] + "." if guidance.club_seen else unseen,
        value=f"{guidance.measure.name}: {_said(guidance, guidance.value)}",
        spread=_spread_words(guidance),
        place=_place(guidance),
        upright=guidance.measure.unit is Unit.DEGREE,
        is_inside=guidance.inside,
        held=round(guidance.held_s / guidance.wanted_s, 2),
        held_words=f"held {guidance.held_s:.1f} of {guidance.wanted_s:g} s",
    )


def _spread_words(guidance: Guidance) -> str:
    low, high = (_said(guidance, end) for end in (guidance.window.low, guidance.window.high))
    return f"give or take {_said(guidance, guidance.sigma)}; wanted: {low} to {high}"


def _said(guidance: Guidance, value: float) -> str:
    return say(value, _WRITTEN[guidance.measure.unit], _DECIMALS)


def _place(guidance: Guidance) -> float:
    """Where on the gauge, -1 to 1, in steps that a screen can show."""
    window = guidance.window
    halves = (guidance.value - (window.low + window.high) / 2) / window.half_width
    beyond = max(abs(halves) - 1.0, 0.0)
    far = (1 - _INSIDE) * beyond / (beyond + _HALF_WAY_WINDOWS)
    place = copysign(_INSIDE * min(abs(halves), 1.0) + far, halves)
    return round(place * _STEPS) / _STEPS
