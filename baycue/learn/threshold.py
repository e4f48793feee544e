"""The bound that a finding proposes, rounded outward in the coach's unit."""

import math
from dataclasses import dataclass

from pydantic import ValidationError

from baycue.learn.finding import Finding
from baycue.learn.spread import LEAST_SWINGS, Spread
from baycue.measures.measurement import Unit
from baycue.plan.document import Data
from baycue.plan.target import Target
from baycue.plan.units import WrittenUnit, in_unit, say

_FOR_UNIT = {
    Unit.DEGREE: WrittenUnit.DEGREE,
    Unit.RATIO: WrittenUnit.RATIO,
    Unit.SECOND: WrittenUnit.MS,
}
_FEET_TOO = (WrittenUnit.INCH, WrittenUnit.FOOT)
_DECIMALS = {WrittenUnit.DEGREE: 0}


@dataclass(frozen=True, slots=True)
class Proposal:
    """A target's bound as plans write it, and whether it is better only watched."""

    bound: dict[str, Data]
    watch_only: bool


def written_unit(unit: Unit, like: WrittenUnit) -> WrittenUnit:
    """The unit to propose in; ``like``: one in which the coach writes lengths."""
    if unit is Unit.METRE:
        return WrittenUnit.INCH if like in _FEET_TOO else WrittenUnit.CM
    return _FOR_UNIT[unit]


def propose(finding: Finding, share: float, written: WrittenUnit) -> Proposal | None:
    """The bound that ``share`` of swings like the good ones should meet; None if too few.

    One-sided away from the poor swings if the measure separates them, else two-sided; watched
    only unless they differ by more than chance and one camera can be trusted with the measure.
    None too for a bound that no plan may hold.
    """
    spread = finding.good.spread
    if spread is None or spread.count < LEAST_SWINGS:
        return None
    proposal = _proposed(finding, spread, share, written)
    return proposal if _may_be_written(finding, proposal) else None


def _proposed(finding: Finding, spread: Spread, share: float, written: WrittenUnit) -> Proposal:
    watch = not finding.differs or bool(finding.doubt)
    if finding.separates and finding.separation and finding.separation.good_is_higher:
        return Proposal({"at_least": outward(spread.limit_below(share), written, down=True)}, watch)
    if finding.separates:
        return Proposal({"at_most": outward(spread.limit_above(share), written, down=False)}, watch)
    low, high = spread.limits(share)
    ends = outward(low, written, down=True), outward(high, written, down=False)
    if ends[0] == ends[1]:  # all alike to the last digit shown
        step = float(written.size) / 10 ** _places(written)
        ends = outward(low - step, written, down=True), outward(high + step, written, down=False)
    return Proposal({"between": [*ends]}, True)


def _may_be_written(finding: Finding, proposal: Proposal) -> bool:
    asked = finding.asked
    row = {"measure": asked.target.measure, **asked.keys, **proposal.bound}
    try:
        Target.model_validate(row)
    except ValidationError:
        return False
    return True


def outward(value: float, written: WrittenUnit, down: bool) -> str:
    """A held value in the coach's unit, rounded away from the good swings.

    A value that already is round to within a millionth of a step stays.
    """
    places = _places(written)
    steps = in_unit(value, written) * 10**places
    rounded = math.floor(steps + 1e-6) if down else math.ceil(steps - 1e-6)
    return say(rounded / 10**places * float(written.size), written, places)


def _places(written: WrittenUnit) -> int:
    return _DECIMALS.get(written, written.decimals)
