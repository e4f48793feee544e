"""What a command's help says after its options: exit codes, files, and what else to look at."""

from dataclasses import dataclass

import typer

_EXITS = {
    0: "done",
    1: "whoever read the output has seen enough",
    2: "wrong use",
    3: "the recording or camera",
    4: "the plan",
    5: "what the picture shows",
    6: "a result that cannot be written, or what was kept",
}
_ANY = (0, 2, 6)


@dataclass(frozen=True, slots=True)
class Page:
    """``exits``: the exit codes that it can end with; ``see``: commands by their words."""

    exits: tuple[int, ...] = _ANY
    files: str = ""
    see: tuple[str, ...] = ("errors",)

    @property
    def text(self) -> str:
        """Paragraphs for the help's foot."""
        exits = ", ".join(f"{code} {_EXITS[code]}" for code in self.exits)
        parts = [f"Exit codes: {exits}."]
        parts += [f"Files: {self.files}"] if self.files else []
        parts += ["See also: " + ", ".join(f"`baycue {word}`" for word in self.see)]
        return "\n\n".join(parts)


_RESULTS = "nothing is overwritten; without --out results lie in baycue_output."
_BENCH = "one result file a swing in the folder of --out, from which the next run goes on."
_KEPT = "what is kept lies in --keep, else in the user's data folder (README, What is kept)."

PAGES = {
    "score": Page(
        (0, 2, 3, 4, 5, 6), _RESULTS, ("check-setup", "plan check", "score-folder", "errors")
    ),
    "score-folder": Page(
        (0, 2, 3, 4, 6), "one JSON file a clip and one summary, below --out.", ("score", "errors")
    ),
    "benchmark-folder": Page((0, 2, 3, 4, 6), "", ("score-folder", "benchmark")),
    "report": Page(
        (0, 2, 6), f"the page is one HTML file; {_KEPT}", ("log sessions", "log export")
    ),
    "replay": Page(
        (0, 2, 3, 4, 5, 6), f"keys M, I and T write to --out; {_KEPT}", ("score", "live")
    ),
    "demo": Page((0, 2, 3, 6), _RESULTS, ("score", "live")),
    "check-setup": Page((0, 2, 3, 4, 5), "", ("score", "live", "doctor")),
    "make-recording": Page(_ANY, "NAME.mp4 and NAME.truth.json in --out.", ("score",)),
    "scale-board": Page(_ANY, "a PDF and a PNG in --out.", ("plan new", "plan check")),
    "schema": Page((0, 2), "", ("plan check", "score")),
    "benchmark": Page((0, 2, 3, 4, 5), "", ("benchmark-live", "latency")),
    "bench": Page(_ANY, _BENCH, ("bench-measures", "bench-idle", "bench-scale", "bench-detector")),
    "bench-calibrate": Page(_ANY, _BENCH, ("bench",)),
    "bench-measures": Page(_ANY, _BENCH, ("bench", "plan measures")),
    "bench-detector": Page(_ANY, "detector.json in --out.", ("bench",)),
    "bench-scale": Page((0, 2), "", ("bench", "scale-board")),
    "bench-idle": Page(_ANY, _BENCH, ("bench",)),
    "live": Page(
        (0, 2, 3, 4, 5, 6),
        f"{_KEPT} Plans are read again when saved.",
        ("devices", "doctor", "check-setup", "log sessions", "replay", "errors"),
    ),
    "doctor": Page((0, 2), "", ("devices", "errors")),
    "devices": Page((0, 2), "", ("live", "doctor")),
    "latency": Page((0, 2, 3, 4, 6), "", ("benchmark-live", "benchmark")),
    "benchmark-log": Page((0, 2, 6), "", ("log sessions",)),
    "benchmark-live": Page((0, 2, 3, 6), "", ("latency", "benchmark")),
    "rehearse-faults": Page((0, 2, 3, 6), "", ("latency", "benchmark-live")),
    "rehearse-practice": Page((0, 2, 6), "", ("rehearse-faults", "latency")),
    "errors": Page((0, 2), "", ("doctor",)),
    "log sessions": Page(_ANY, _KEPT, ("log swings", "report")),
    "log swings": Page(_ANY, _KEPT, ("log sessions", "replay")),
    "log export": Page(_ANY, "FILE, a new one; nothing is overwritten.", ("report",)),
    "log rescore": Page((0, 2, 4, 5, 6), _KEPT, ("plan check", "log swings")),
    "log check": Page(_ANY, _KEPT, ("log retention", "errors")),
    "log delete-student": Page(_ANY, _KEPT, ("log retention", "log check")),
    "log retention": Page(_ANY, _KEPT, ("log delete-student", "log check")),
    "plan new": Page(
        _ANY, "FILE, a new one; nothing is overwritten.", ("plan check", "plan measures")
    ),
    "plan check": Page((0, 2, 4), "", ("plan new", "plan measures", "schema")),
    "plan measures": Page((0, 2), "", ("plan check",)),
    "plan learn": Page(
        (0, 2, 3, 4, 5, 6), "the proposal, a new file: --out.", ("plan check", "score")
    ),
}
"""By a command's words; one that is not here has the usual exit codes."""


def add_pages(app: typer.Typer, before: str = "") -> None:
    """Put each command's page below what its help ends with."""
    for command in app.registered_commands:
        name = command.name or str(getattr(command.callback, "__name__", "")).replace("_", "-")
        page = PAGES.get(f"{before}{name}", Page()).text
        command.epilog = f"{page}\n\n{command.epilog}" if command.epilog else page
    for group in app.registered_groups:
        if group.typer_instance is not None:
            add_pages(group.typer_instance, f"{before}{group.name} ")
