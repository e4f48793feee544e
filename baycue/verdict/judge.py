"""Measurements against targets: pass, fail or too close to call.

A value whose band (so many sigmas either side, the coach's to widen) straddles the bound is
too close to call: the camera cannot tell.  A target that was not measured cannot be called
either; it is answered "too close to call" with the reason "not measured", so that it can
neither pass nor fail a swing, and it has no measurement to show.

A bound missed by no more than the coach's tolerance passes: the tolerance moves the bound out,
and what is too close to call is counted from there.
"""

import math
from collections.abc import Sequence

from baycue.measures.allowed import Allowed
from baycue.measures.catalogue import measure_named
from baycue.measures.measurement import Measurement
from baycue.plan.target import Target
from baycue.verdict.margin import Margin, margin_to
from baycue.verdict.verdict import Outcome, SwingVerdict, TargetVerdict
from baycue.verdict.wording import say_figures, say_reason


def judge_target(
    target: Target, measurement: Measurement | None, why_missing: str = ""
) -> TargetVerdict:
    """Judge one target; ``why_missing`` says why there is no measurement.

    Raises ValueError for a measurement that is not finite, has a negative sigma, or is not of
    the target's measure and unit: such a number must never become an answer.
    """
    if measurement is None:
        return _not_measured(target, why_missing)
    _check(target, measurement)
    spread = target.band * measurement.sigma
    margin = margin_to(target.bound, measurement.value)
    outcome = outcome_of(margin, spread)
    sure = outcome is not Outcome.TOO_CLOSE
    said = say_figures(target.bound, measurement.value, margin, spread, sure)
    return TargetVerdict(
        target_name=target.title,
        outcome=outcome,
        measurement=measurement,
        margin=margin.to_spare,
        reason=say_reason(target.title, said, margin, outcome),
        said=said,
        cue=target.cue or "",
        watch_only=target.watch_only,
        allowed=allowed_by(target),
        band=target.band,
    )


def allowed_by(target: Target) -> Allowed:
    """Where passing ends, the tolerance included, in the measure's unit."""
    bound = target.bound
    spare = bound.tolerance.value if bound.tolerance else 0.0
    low = bound.low.value - spare if bound.low else None
    high = bound.high.value + spare if bound.high else None
    return Allowed(low, high, target.when)


def judge_swing(number: int, answers: Sequence[TargetVerdict]) -> SwingVerdict:
    """The whole swing from its targets' answers; watch-only ones do not decide."""
    deciding = [a for a in answers if not a.watch_only]
    outcome = _whole(deciding)
    return SwingVerdict(number, outcome, tuple(answers), _why(outcome, deciding))


def outcome_of(margin: Margin, spread: float) -> Outcome:
    """The answer for a margin and the band either side of it (both in the held unit)."""
    if abs(margin.to_spare) < spread:
        return Outcome.TOO_CLOSE
    return Outcome.PASS if margin.to_spare >= 0 else Outcome.FAIL


def _not_measured(target: Target, why: str) -> TargetVerdict:
    return TargetVerdict(
        target_name=target.title,
        outcome=Outcome.TOO_CLOSE,
        measurement=None,
        margin=None,
        reason=f"{target.title}: not measured{': ' + why if why else ''}",
        cue=target.cue or "",
        watch_only=target.watch_only,
        band=target.band,
    )


def _check(target: Target, measurement: Measurement) -> None:
    measure = measure_named(target.measure)
    if measurement.measure != target.measure or measure is None:
        raise ValueError(f'"{measurement.measure}" was measured, "{target.measure}" was asked')
    if measurement.unit is not measure.unit:
        raise ValueError(f'"{target.measure}" is in {measurement.unit}, not {measure.unit}')
    if not (math.isfinite(measurement.value) and math.isfinite(measurement.sigma)):
        raise ValueError(f'"{target.measure}" is not finite: {measurement}')
    if measurement.sigma < 0:
        raise ValueError(f'"{target.measure}" has a negative sigma: {measurement.sigma}')


def _whole(deciding: Sequence[TargetVerdict]) -> Outcome:
    outcomes = {answer.outcome for answer in deciding}
    if Outcome.FAIL in outcomes:
        return Outcome.FAIL
    return Outcome.PASS if outcomes == {Outcome.PASS} else Outcome.TOO_CLOSE


def _why(outcome: Outcome, deciding: Sequence[TargetVerdict]) -> str:
    if not deciding:
        return "no target decides this swing; all are watched only"
    if outcome is Outcome.PASS:
        return "every target met" if len(deciding) > 1 else deciding[0].reason
    return "; ".join(answer.reason for answer in deciding if answer.outcome is outcome)
