"""A target's answer in plain words and the coach's units."""

from baycue.plan.target import Bound
from baycue.plan.units import in_unit, say
from baycue.verdict.margin import Margin
from baycue.verdict.verdict import Outcome, Said

_FINEST_DECIMALS = 4


def say_figures(bound: Bound, value: float, margin: Margin, spread: float, sure: bool) -> Said:
    """Value, bound, margin and spread (held units) as the coach writes them.

    A ``sure`` answer gets as many decimals as show which side of the bound the value is.
    """
    unit = margin.threshold.written
    places = _decimals(bound, unit.decimals)
    if sure:
        places = _telling_decimals(value, margin, places)
    return Said(
        value=say(value, unit, places),
        bound=_say_bound(bound, margin, places),
        margin=_say_margin(margin, places),
        give_or_take=say(spread, unit, places),
        end=_say_end(bound, margin, places),
    )


def say_reason(title: str, said: Said, margin: Margin, outcome: Outcome) -> str:
    """``knee past ankle at P6: 3.1 cm, 1.9 cm short of 5.0 cm (give or take 0.9 cm)``."""
    places = len(said.value.split()[0].partition(".")[2])
    threshold = say(margin.threshold.value, margin.threshold.written, places)
    link = " of" if said.margin.endswith("short") else ""
    figures = f"{title}: {said.value}, {said.margin}{link} {threshold}"
    if margin.tolerated and margin.size < 0:
        figures += f", {_say_tolerated(margin, places)}"
    if outcome is Outcome.TOO_CLOSE:
        return f"{figures}, give or take {said.give_or_take}: too close to call"
    return f"{figures} (give or take {said.give_or_take})"


def _say_margin(margin: Margin, places: int) -> str:
    unit = margin.threshold.written
    if round(abs(in_unit(margin.size, unit)), places) == 0:
        return "right on"
    if margin.size < 0:
        side = "short" if margin.is_low else "over"
    else:
        side = "above" if margin.is_low else "under"
    return f"{say(abs(margin.size), unit, places)} {side}"


def _say_tolerated(margin: Margin, places: int) -> str:
    return f"{say(margin.tolerated, margin.threshold.written, places)} tolerated"


def _say_end(bound: Bound, margin: Margin, places: int) -> str:
    """The nearest end of a range; a single bound needs no telling apart."""
    if not (bound.low and bound.high):
        return ""
    return say(margin.threshold.value, margin.threshold.written, places)


def _say_bound(bound: Bound, margin: Margin, places: int) -> str:
    """``at least 5.0 cm``, with ``(0.5 cm tolerated)`` where the coach tolerates something."""
    low = say(bound.low.value, bound.low.written, places) if bound.low else ""
    high = say(bound.high.value, bound.high.written, places) if bound.high else ""
    one = f"at least {low}" if low else f"at most {high}"
    said = f"between {low} and {high}" if low and high else one
    return f"{said} ({_say_tolerated(margin, places)})" if margin.tolerated else said


def _decimals(bound: Bound, least: int) -> int:
    """Decimals that show bounds and tolerance as the coach wrote them, no fewer than usual."""
    ends = [q for q in (bound.low, bound.high) if q]
    told = [in_unit(q.value, q.written) for q in ends]
    if bound.tolerance:
        told.append(in_unit(bound.tolerance.value, ends[0].written))
    return max(least, *(_exact_decimals(number) for number in told))


def _exact_decimals(number: float) -> int:
    for places in range(_FINEST_DECIMALS):
        if abs(round(number, places) - number) < 1e-9:
            return places
    return _FINEST_DECIMALS


def _telling_decimals(value: float, margin: Margin, places: int) -> int:
    unit = margin.threshold.written
    while margin.to_spare and places < _FINEST_DECIMALS:
        same = say(value, unit, places) == say(margin.edge, unit, places)
        if not same and round(in_unit(margin.to_spare, unit), places):
            break
        places += 1
    return places
