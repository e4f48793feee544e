"""The scored recording as a table for a terminal."""

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from baycue.spine import ScoredSwing
from baycue.swing.swing import Checkpoint, CheckpointName, Swing
from baycue.verdict.verdict import Outcome, TargetVerdict

_STYLE = {Outcome.PASS: "bold green", Outcome.FAIL: "bold red", Outcome.TOO_CLOSE: "bold yellow"}


def swing_table(scored: ScoredSwing) -> RenderableType:
    """One swing: its targets, then its checkpoints."""
    verdict = scored.verdict
    title = f"Swing {verdict.swing_number}: {verdict.outcome.value.upper()}"
    return Group(
        Text(title, style=_STYLE[verdict.outcome]),
        _targets(verdict.targets),
        _checkpoints(scored.evidence.swing),
        Text(f"Club seen in {scored.evidence.shaft_seen_share:.0%} of this swing's frames."),
    )


def _targets(answers: tuple[TargetVerdict, ...]) -> Table:
    table = Table("target", "measured", "give or take", "asked", "margin", "answer")
    for answer in answers:
        said = answer.said
        name = f"{answer.target_name} (watched)" if answer.watch_only else answer.target_name
        word = Text(answer.outcome.value, style=_STYLE[answer.outcome])
        if said is None:
            table.add_row(name, answer.reason, "", "", "", word)
        else:
            table.add_row(name, said.value, said.give_or_take, said.bound, said.margin, word)
    return table


def _checkpoints(swing: Swing) -> Table:
    table = Table("checkpoint", "at", "before impact", "give or take")
    impact = swing.at(CheckpointName.IMPACT)
    for checkpoint in swing.checkpoints:
        table.add_row(*_checkpoint_row(checkpoint, impact))
    return table


def _checkpoint_row(checkpoint: Checkpoint, impact: Checkpoint | None) -> tuple[str, ...]:
    before = f"{(impact.time_ns - checkpoint.time_ns) / 1e6:.0f} ms" if impact else ""
    at, sigma = checkpoint.time_ns / 1e9, checkpoint.sigma_ns / 1e6
    return checkpoint.name.value, f"{at:.3f} s", before, f"{sigma:.1f} ms"
