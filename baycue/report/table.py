"""A scored swing as a table for a terminal of 80 columns or more."""

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from baycue.cues.band import headline
from baycue.measures.catalogue import measure_named
from baycue.measures.evidence import SwingEvidence
from baycue.measures.scale import scale_line
from baycue.plan.stance import View
from baycue.report.words import IN_WORDS, answer_word, asked_and_margin
from baycue.spine import ScoredSwing
from baycue.swing.swing import SIGMAS_95, Checkpoint, CheckpointName, Swing
from baycue.verdict.verdict import Outcome, TargetVerdict

_STYLE = {Outcome.PASS: "bold green", Outcome.FAIL: "bold red", Outcome.TOO_CLOSE: "bold yellow"}
_TWO_INTERVALS = (
    f"A moment's give or take holds 68 times in 100, {SIGMAS_95:g} times as much 95 times."
)


def swing_table(scored: ScoredSwing) -> RenderableType:
    """One swing: its targets, then its checkpoints."""
    verdict = scored.verdict
    title = f"\nSwing {verdict.swing_number}: {headline(verdict)}"
    return Group(
        Text(title, style=_STYLE[verdict.outcome]),
        Text(),
        _targets(verdict.targets),
        Text(),
        _checkpoints(scored.evidence.swing),
        Text(_TWO_INTERVALS, style="dim"),
        Text(),
        Text(_club_line(scored.evidence)),
        Text(scale_line(scored.evidence)),
        *_company_line(scored.evidence),
        *_doubt_lines(verdict.targets),
    )


def _table() -> Table:
    return Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="dim")


def _targets(answers: tuple[TargetVerdict, ...]) -> Table:
    table = _table()
    table.add_column("answer", no_wrap=True)
    table.add_column("target")
    table.add_column("measured", justify="right", no_wrap=True)
    table.add_column("give or take", justify="right", no_wrap=True)
    for answer in answers:
        table.add_row(
            Text(answer_word(answer), style=_STYLE[answer.outcome]),
            _target_cell(answer),
            answer.said.value if answer.said else "",
            answer.said.give_or_take if answer.said else "",
        )
    return table


def _target_cell(answer: TargetVerdict) -> Text:
    """The name, and what was asked on a line of its own."""
    name = f"{answer.target_name} (watched only)" if answer.watch_only else answer.target_name
    return Text(f"{name}\n").append(asked_and_margin(answer), style="dim")


def _checkpoints(swing: Swing) -> Table:
    table = _table()
    table.add_column("checkpoint", no_wrap=True)
    table.add_column("", no_wrap=True, style="dim")
    for heading in ("at", "from impact", "give or take"):
        table.add_column(heading, justify="right", no_wrap=True)
    impact = swing.at(CheckpointName.IMPACT)
    for checkpoint in swing.checkpoints:
        table.add_row(*_checkpoint_row(checkpoint, impact))
    return table


def _checkpoint_row(checkpoint: Checkpoint, impact: Checkpoint | None) -> tuple[str, ...]:
    after = f"{(checkpoint.time_ns - impact.time_ns) / 1e6:+.0f} ms" if impact else ""
    at, sigma = f"{checkpoint.time_ns / 1e9:.3f} s", f"{checkpoint.sigma_ns / 1e6:.0f} ms"
    return checkpoint.name.value, IN_WORDS[checkpoint.name], at, after, sigma


def _company_line(evidence: SwingEvidence) -> tuple[Text, ...]:
    if not evidence.in_company:
        return ()
    return (
        Text(
            "Somebody was close behind the golfer, at the ball or later: the give or take is "
            "wider. Let nobody walk there."
        ),
    )


def _doubt_lines(answers: tuple[TargetVerdict, ...]) -> list[Text]:
    """What one camera cannot be trusted with, each measure once."""
    names = dict.fromkeys(a.measurement.measure for a in answers if a.measurement)
    doubted = [m for name in names if (m := measure_named(name)) and m.doubt]
    return [Text(f"Do not trust {m.name} from one camera: {m.doubt}.") for m in doubted]


def _club_line(evidence: SwingEvidence) -> str:
    if evidence.view is not View.FACE_ON:
        return "Down the line the shaft points along the line of sight and is not followed."
    return (
        f"The shaft was seen in {evidence.shaft_seen_share:.0%} of this swing's pictures; "
        "elsewhere it is worked out."
    )
