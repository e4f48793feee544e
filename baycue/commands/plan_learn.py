"""Propose thresholds from recordings: a table, and a new plan file for the coach to edit."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from rich.console import Console
from rich.table import Table
from rich.text import Text

from baycue.capture.probe import probe
from baycue.commands.folders import refuse_unwritable
from baycue.commands.progress import progress_bar
from baycue.errors import BaycueError, SceneError
from baycue.learn.asked import asked_of
from baycue.learn.finding import Finding, Sample, findings
from baycue.learn.proposal import Learnt, proposal_text
from baycue.learn.spread import LEAST_SWINGS
from baycue.learn.threshold import propose
from baycue.learn.words import reading_word
from baycue.measures.evidence import SwingEvidence
from baycue.plan.document import Data
from baycue.plan.file import plan_text
from baycue.plan.load import parse_plan, parse_with_lines
from baycue.plan.plan import Plan
from baycue.plan.units import WrittenUnit, say
from baycue.recording import ScoredRecording, score_recording

Score = Callable[[Path, Plan, Callable[[int], None]], ScoredRecording]


@dataclass(frozen=True, slots=True)
class LearnRequest:
    """What the user asked for.  ``only``: the measures to look at; none for all."""

    good: Sequence[Path]
    poor: Sequence[Path]
    like: Path
    out: Path
    only: Sequence[str] = ()
    share: float = 0.9


@dataclass(slots=True)
class _Clips:
    """The swings of some recordings, and the recordings that could not be used."""

    swings: list[SwingEvidence] = field(default_factory=list)
    used: list[str] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)


def run_plan_learn(
    request: LearnRequest, console: Console, score: Score = score_recording
) -> Learnt:
    """Print what was found and write the proposal; raises BaycueError with one clear line."""
    plan, document = parse_with_lines(plan_text(request.like), str(request.like))
    written: dict[str, Data] = document.data if isinstance(document.data, dict) else {}
    asked = asked_of(plan, written["targets"], request.only)
    _refuse_before_the_work(request)
    good = _scored(request.good, plan, console, score)
    poor = _scored(request.poor, plan, console, score)
    if len(good.swings) < LEAST_SWINGS:
        raise SceneError(
            f"{len(good.swings)} good swings were found; {LEAST_SWINGS} are the least that a "
            "threshold can be proposed from"
        )
    learnt = Learnt(
        findings(asked, good.swings, poor.swings),
        tuple(good.used),
        tuple(poor.used),
        request.share,
        plan.stature.written,
        (*good.left_out, *poor.left_out),
    )
    text = proposal_text(written, learnt)
    parse_plan(text, str(request.out))  # what is written must load
    with request.out.open("x", encoding="utf-8") as file:
        file.write(text)
    console.print(_table(learnt))
    _say(console, f"Proposal written to {request.out}. Nothing counts until you take it: read it.")
    return learnt


def _refuse_before_the_work(request: LearnRequest) -> None:
    """Nobody waits for a result that cannot be kept, or for a clip that is not there."""
    refuse_unwritable(request.out)
    places = [path.resolve() for path in (*request.good, *request.poor)]
    for path in (*request.good, *request.poor):
        if places.count(path.resolve()) > 1:
            raise BaycueError(f"{path}: named twice; a recording is either good or poor, and once")
        probe(path)


def _scored(paths: Sequence[Path], plan: Plan, console: Console, score: Score) -> _Clips:
    clips = _Clips()
    for path in paths:
        try:
            swings = _swings_in(path, plan, console, score)
        except SceneError as error:
            clips.left_out.append(str(error))
            _say(console, f"left out: {error}")
            continue
        clips.swings += swings
        clips.used.append(path.name)
    return clips


def _swings_in(path: Path, plan: Plan, console: Console, score: Score) -> list[SwingEvidence]:
    """The swings of one recording; SceneError if it cannot be judged or shows none."""
    with progress_bar(console) as bar:
        task = bar.add_task(f"watching {path.name}", total=probe(path).frame_count)
        found = score(path, plan, lambda done: bar.update(task, completed=done))
    if not found.swings:
        raise SceneError(f"{path.name}: no swing found")
    return [swing.evidence for swing in found.swings]


def _table(learnt: Learnt) -> Table:
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="dim")
    table.add_column("measure and proposed bound")
    for heading in ("good", "poor", "good is higher in"):
        table.add_column(heading, justify="right", no_wrap=True)
    for finding in learnt.findings:
        table.add_row(*_row(finding, learnt))
    return table


def _row(finding: Finding, learnt: Learnt) -> tuple[str | Text, ...]:
    proposed = Text(f"{finding.asked.target.title}\n")
    return (
        proposed.append(_proposed(finding, learnt), style="dim"),
        _mean_and_spread(finding.good, learnt.unit_of(finding)),
        _mean_and_spread(finding.poor, learnt.unit_of(finding)),
        _compared(finding),
    )


def _compared(finding: Finding) -> str:
    found = finding.separation
    if found is None:
        return ""
    pairs = f"{found.higher:g} of {found.pairs} pairs"
    return f"{pairs}\nadjusted p {finding.adjusted_p:.3f}\n{reading_word(finding)}"


def _mean_and_spread(sample: Sample, unit: WrittenUnit) -> str:
    spread = sample.spread
    if spread is None:
        return ""
    deviation = f"s {say(spread.deviation, unit)}, " if spread.count > 1 else ""
    return f"{say(spread.mean, unit)}\n{deviation}n {spread.count}"


def _proposed(finding: Finding, learnt: Learnt) -> str:
    proposal = propose(finding, learnt.share, learnt.unit_of(finding))
    if proposal is None:
        return "none: too few or too far apart"
    ((key, value),) = proposal.bound.items()
    said = f"{value[0]} and {value[1]}" if isinstance(value, list) else str(value)
    return f"{key.replace('_', ' ')} {said}{' (watch only)' if proposal.watch_only else ''}"


def _say(console: Console, line: str) -> None:
    console.print(line, soft_wrap=True, highlight=False, markup=False)
