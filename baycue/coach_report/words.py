"""What page and terminal text say alike."""

from baycue.coach_report.figures import TargetFigures, fewest_for_a_chart
from baycue.folder.summary import Tally
from baycue.plan.target import Target
from baycue.practice.history import bound_words

CAUTIONS = (
    "One still camera measured this, calibrated on synthetic golfers and not yet checked on real "
    "ones: compare with the same camera's earlier weeks rather than with a laboratory's "
    "centimetres.",
    "A pass rate is of the swings that were called pass or fail; those too close to call and those "
    "not measured are counted beside it. Its interval is Wilson's, 95 %: rates whose intervals "
    "overlap widely may be the same.",
    "Blocks of ten swings tell next to nothing of drift: a p-chart has a lower limit only from "
    "more than 9(1-p)/p swings a block on (Montgomery, from memory), 22 at 30 % passed.",
    "Stop if anything hurts. The facility's rules, local codes and a doctor's or physiotherapist's "
    "word come before any figure here.",
)


def asked(target: Target) -> str:
    """``lead knee ahead at P6: at least 5 cm (watched only)``."""
    watched = " (watched only)" if target.watch_only else ""
    return f"{target.title}: {bound_words(target.bound)}{watched}"


def rate_words(tally: Tally) -> str:
    """``7 of 10, 70 % (40 to 89 %)``."""
    called = tally.passed + tally.failed
    if tally.pass_rate is None or tally.low is None or tally.high is None:
        return "none called"
    interval = f"{100 * tally.low:.0f} to {100 * tally.high:.0f} %"
    return f"{tally.passed} of {called}, {100 * tally.pass_rate:.0f} % ({interval})"


def drift_words(figures: TargetFigures) -> str:
    """What may be said of first and second halves: with few swings, that nothing may be."""
    rate = figures.practice.pass_rate
    if rate is None or rate in (0.0, 1.0):
        return "Nothing can be said of drift: all called swings were answered alike."
    fewest = fewest_for_a_chart(rate)
    largest = max((_called(half) for s in figures.sessions for half in s.halves), default=0)
    if largest < fewest:
        return (
            f"Too few swings to tell drift from luck: at {100 * rate:.0f} % passed a half would "
            f"need {fewest} called swings, and the largest had {largest}."
        )
    return (
        f"At {100 * rate:.0f} % passed a half needs {fewest} called swings to tell anything; only "
        "halves whose intervals lie apart differ by more than luck."
    )


def retention_words(figures: TargetFigures) -> str:
    """Silent probes against practice, or that there were none."""
    probes = figures.probes
    if probes.passed + probes.failed + probes.too_close == 0:
        return "No silent probe swings were kept, so retention is not known."
    return f"Probes: {rate_words(probes)}; practice: {rate_words(figures.practice)}."


def _called(tally: Tally) -> int:
    return tally.passed + tally.failed
