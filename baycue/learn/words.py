"""What a finding says, in plain words and with its doubts."""

from baycue.learn.finding import Finding, Sample
from baycue.plan.target import USUAL_BAND
from baycue.plan.units import WrittenUnit, say


def sample_words(sample: Sample, written: WrittenUnit) -> str:
    """``6 swings, mean 5.2 cm, s 0.8 cm, 4.1 cm to 6.0 cm, 1 not measured``."""
    spread = sample.spread
    missing = f", {sample.missing} not measured" if sample.missing else ""
    if spread is None:
        return f"no swing{missing}"
    if spread.count == 1:
        return f"1 swing, {say(spread.mean, written)}{missing}"
    return (
        f"{spread.count} swings, mean {say(spread.mean, written)}, s "
        f"{say(spread.deviation, written)}, {say(spread.least, written)} to "
        f"{say(spread.largest, written)}{missing}"
    )


def give_or_take_words(sample: Sample, written: WrittenUnit) -> str:
    """That the swings may be more alike than the bay can see; empty if not so."""
    spread = sample.spread
    if spread is None or spread.count < 2:
        return ""
    usual = USUAL_BAND * sorted(sample.sigmas)[len(sample.sigmas) // 2]
    if spread.deviation > usual:
        return ""
    return (
        f"The good swings spread no wider than the bay's own give or take, {say(usual, written)}: "
        "a tighter bound would mostly be too close to call."
    )


def doubt_words(finding: Finding) -> str:
    """Why one camera is not to be trusted with the measure; empty if it is."""
    return f"Not to be trusted from one camera: {finding.doubt}." if finding.doubt else ""


def separation_words(finding: Finding, compared: int) -> str:
    """``Good is higher in 29.5 of 30 pairs; p = 0.004, adjusted 0.032 for the 8 measures ...``"""
    found = finding.separation
    if found is None:
        return "Without poor swings nothing says whether it matters."
    higher = found.good_is_higher
    count = found.higher if higher else found.pairs - found.higher
    side = "higher" if higher else "lower"
    told = f"Good is {side} in {count:g} of {found.pairs} pairs; p = {_p(found.p)}"
    if compared > 1:
        told += f", adjusted {_p(finding.adjusted_p)} for the {compared} measures compared"
    return f"{told}. {_reading(finding, compared)}"


def reading_word(finding: Finding) -> str:
    """The reading in a word or two, for a table."""
    if finding.separation is None:
        return ""
    if finding.differs:
        return "differ"
    return "apart, too few" if finding.separates else "not told apart"


def _reading(finding: Finding, compared: int) -> str:
    found = finding.separation
    assert found is not None, "asked only where there is one"
    if finding.differs:
        return "They differ by more than chance would explain."
    if not finding.separates:
        return "That may be chance."
    chance = f"with so few swings p cannot be below {_p(found.least_p)}"
    if compared > 1:
        chance += f", and of {compared} measures that do not matter {found.least_p * compared:.1f}"
        chance += " would look like this"
    return f"They do not overlap, but that may be chance: {chance}."


def _p(value: float) -> str:
    if value >= 0.095:
        return f"{value:.2f}"
    return f"{value:.3f}" if value >= 0.0005 else "under 0.001"
