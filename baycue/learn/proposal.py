"""The proposal as a plan file: the plan it was made like, and every threshold a comment.

It loads and means what the plan before it meant until the coach takes a threshold by removing
its marks.
"""

import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from baycue.learn.finding import Finding
from baycue.learn.threshold import Proposal, propose, written_unit
from baycue.learn.words import doubt_words, give_or_take_words, sample_words, separation_words
from baycue.plan.document import Data
from baycue.plan.units import WrittenUnit
from baycue.plan.writing import as_yaml

_WIDTH = 96
_MARK = "# "


@dataclass(frozen=True, slots=True)
class Learnt:
    """All that goes into a proposal.

    ``share``: of swings like the good ones that should meet a bound, 0 to 1.  ``lengths_in``: a
    unit in which the coach writes lengths.  ``left_out``: clips that could not be used, and why.
    """

    findings: tuple[Finding, ...]
    good_clips: tuple[str, ...]
    poor_clips: tuple[str, ...]
    share: float
    lengths_in: WrittenUnit
    left_out: tuple[str, ...] = ()

    @property
    def compared(self) -> int:
        """Of how many measures good and poor were compared."""
        return sum(finding.separation is not None for finding in self.findings)

    def unit_of(self, finding: Finding) -> WrittenUnit:
        """What a finding's values are written in."""
        return written_unit(finding.asked.measure.unit, self.lengths_in)


def proposal_text(like: dict[str, Data], learnt: Learnt) -> str:
    """The file's text.  ``like``: the plan's data as written."""
    head = {key: value for key, value in like.items() if key != "targets"}
    lines = [
        *_comments(_preamble(learnt)),
        "",
        *as_yaml(head).splitlines(),
        "",
        "# These targets are still those of the plan that this was made like.",
        *as_yaml({"targets": like["targets"]}).splitlines(),
    ]
    for finding in learnt.findings:
        lines += ["", *_finding_lines(finding, learnt)]
    return "\n".join(lines) + "\n"


def _preamble(learnt: Learnt) -> Iterator[str]:
    yield 'A PROPOSAL by "baycue plan learn", to be edited by the coach; it decides nothing yet.'
    yield f"Good: {_clips(learnt.good_clips)}."
    if learnt.poor_clips:
        yield f"Poor: {_clips(learnt.poor_clips)}."
    yield from (f"Left out: {printable(told)}." for told in learnt.left_out)
    yield (
        f"Each bound below is a prediction limit: one more swing like the good ones meets it in "
        f"{learnt.share:.0%} of cases, if their values are spread normally and each swing is one "
        "by itself. It is mean -/+ t s sqrt(1 + 1/n) with Student's t for n - 1 degrees of "
        "freedom, so few swings give wide bounds. Swings of one recording share camera and day: "
        "more recordings tell more than more swings."
    )
    yield (
        "To take a bound remove the marks before its lines, and the plan's own target that asks "
        'the same. Then "baycue plan check" this file. A bound says what these swings did, not '
        "what is right: that is the coach's word."
    )


def _clips(names: Sequence[str]) -> str:
    return ", ".join(printable(name) for name in names)


def _finding_lines(finding: Finding, learnt: Learnt) -> Iterator[str]:
    unit = learnt.unit_of(finding)
    title, number = finding.asked.target.title, finding.asked.in_plan
    same = f" (in the plan: target {number})" if number else ""
    told = [
        f"{printable(title)}{same}. Good: {sample_words(finding.good, unit)}.",
        *([f"Poor: {sample_words(finding.poor, unit)}."] if learnt.poor_clips else []),
        *([separation_words(finding, learnt.compared)] if learnt.poor_clips else []),
        give_or_take_words(finding.good, unit),
        doubt_words(finding),
    ]
    yield from (f"  {line}" for line in _comments(t for t in told if t))
    proposal = propose(finding, learnt.share, unit)
    if proposal is None:
        yield "  # The good swings are too few, or too far apart, for a bound."
        return
    yield from (f"  {_MARK}{line}" for line in target_lines(finding, proposal))


def target_lines(finding: Finding, proposal: Proposal) -> list[str]:
    """The proposed target as an item of ``targets``, without marks."""
    row: dict[str, Data] = {
        "measure": finding.asked.target.measure,
        **finding.asked.keys,
        **proposal.bound,
    }
    if proposal.watch_only:
        row["watch_only"] = "true"
    return as_yaml([row]).splitlines()


def _comments(texts: Iterator[str]) -> Iterator[str]:
    for text in texts:
        for line in textwrap.wrap(text, _WIDTH - len(_MARK)):
            yield f"{_MARK}{line}"


def printable(text: str) -> str:
    """A name that cannot break out of a comment's line."""
    return "".join(c if c.isprintable() else "?" for c in text)
