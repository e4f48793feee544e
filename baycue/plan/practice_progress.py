"""When a target counts as met, and what it becomes then."""

from typing import Any

from pydantic import BaseModel, ConfigDict, Field, ValidationInfo, field_validator

from baycue.plan import fields
from baycue.plan import practice_fields as own
from baycue.plan.target import Bound
from baycue.plan.units import Quantity
from baycue.practice.wilson import fewest_trials

FEWEST_SWINGS = 20
"""Ten swings tell nothing: with a true rate of 7 in 10 the 95 % interval of ten swings runs from
0.40 to 0.89 (Newcombe 1998), and a control chart for a rate of 0.3 wants 21 a block (Montgomery,
from memory)."""


class HarderBound(BaseModel):
    """The bound that takes the place of a target's own; of the same kind as that."""

    model_config = ConfigDict(frozen=True, extra="forbid", validate_default=True)

    at_least: fields.BoundValue | None = None
    at_most: fields.BoundValue | None = None
    between: fields.Between | None = None

    @property
    def bound(self) -> Bound:
        """The passing values."""
        return Bound(*self.between) if self.between else Bound(self.at_least, self.at_most)

    @field_validator("between")
    @classmethod
    def _one_of_them(cls, value: Any, info: ValidationInfo) -> Any:
        others = [k for k in ("at_least", "at_most") if info.data.get(k) is not None]
        given = [*others, "between"] if value else others
        if len(given) != 1:
            had = " and ".join(given) or "no bound"
            raise ValueError(f'{had} given; write one of "at_least", "at_most", "between"')
        return value


class ProgressRule(BaseModel):
    """A target is met when the lower Wilson limit of its rate over ``over`` swings is enough.

    ``pass_rate``: what the limit must exceed.  ``harder``: the bound to go on with; a target
    without one is to be maintained.  The program proposes; only the coach changes a plan.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", validate_default=True)

    target: fields.ShortText
    pass_rate: own.PassRate
    confidence: own.Confidence = 0.95
    over: own.Over
    too_close: own.TooCloseWord = own.TooClose.NOT_A_PASS
    harder: HarderBound | None = Field(None)

    @field_validator("over")
    @classmethod
    def _enough(cls, value: int, info: ValidationInfo) -> int:
        rate, confidence = info.data.get("pass_rate"), info.data.get("confidence")
        if rate is None or confidence is None:
            return value
        fewest = fewest_trials(rate, confidence)
        if value < fewest:
            raise ValueError(
                f"{value} swings are too few: even {value} of {value} passed could not show a rate "
                f"above {100 * rate:g} % at {100 * confidence:g} % confidence; allowed: "
                f"{max(fewest, FEWEST_SWINGS)} or more"
            )
        if value < FEWEST_SWINGS:
            raise ValueError(
                f"{value} swings can be luck: 7 passes of 10 go with any true rate from 40 to "
                f"89 %; allowed: {FEWEST_SWINGS} or more"
            )
        return value


def is_harder(new: Bound, old: Bound) -> bool:
    """Whether a bound is of the other's kind and unit, lets nothing new pass, and less."""
    ends = [(new.low, old.low, 1.0), (new.high, old.high, -1.0)]
    if any((n is None) != (o is None) for n, o, _ in ends):
        return False
    steps = [_step(n, o) * way for n, o, way in ends if n and o]
    return all(step >= 0 for step in steps) and any(step > 0 for step in steps)


def _step(new: Quantity, old: Quantity) -> float:
    return new.value - old.value if new.written.held is old.written.held else float("-inf")
