"""Score a recording: table, cues and, on request, JSON and an annotated clip."""

from dataclasses import dataclass
from pathlib import Path

from rich.console import Console

from baycue.capture.probe import probe
from baycue.commands.folders import drop_if_empty, new_folder, refuse_unusable, refuse_unwritable
from baycue.commands.progress import progress_bar
from baycue.cues.present import open_cues
from baycue.cues.voice import Voice
from baycue.cues.voices.standard import VOICE
from baycue.errors import BaycueError, OutputError
from baycue.plan.load import load_plan
from baycue.plan.plan import Plan
from baycue.recording import ScoredRecording, score_recording
from baycue.report.annotate import annotate_recording
from baycue.report.document import score_document, write_document
from baycue.report.table import swing_table


@dataclass(frozen=True, slots=True)
class ScoreRequest:
    """What the user asked for; None for what was not."""

    recording: Path
    plan: Path
    out: Path
    json_file: Path | None = None
    annotated_clip: Path | None = None
    silent: bool = False
    hold_s: float = 3.0
    voice: Voice = VOICE
    blur_faces: bool = False


def run_score(request: ScoreRequest, console: Console) -> ScoredRecording:
    """Do all of it; raises BaycueError with one clear line."""
    plan = load_plan(request.plan)
    _refuse_before_the_work(request)
    scored = _scored(request.recording, plan, console)
    _tell(scored, console)
    if request.json_file:
        document = score_document(request.recording.name, request.plan.name, plan, scored)
        write_document(document, request.json_file)
        _say(console, f"Scores written to {request.json_file}")
    if scored.swings and not request.silent:
        _cue(scored, request, console)
    if request.annotated_clip:
        _annotate(scored, request, request.annotated_clip, console)
    return scored


def _refuse_before_the_work(request: ScoreRequest) -> None:
    """OutputError for places that cannot take what was asked for."""
    for path in (request.json_file, request.annotated_clip):
        refuse_unwritable(path)
    if request.json_file and request.json_file == request.annotated_clip:
        raise OutputError(f"{request.json_file}: asked for both scores and clip; name two files")
    if request.blur_faces and request.annotated_clip is None:
        raise BaycueError("--blur-faces: is for the clip of --annotate; name that too")
    if not request.silent:
        refuse_unusable(request.out)


def _annotate(scored: ScoredRecording, request: ScoreRequest, clip: Path, console: Console) -> None:
    blurred = scored.heads if request.blur_faces else None
    with progress_bar(console) as bar:
        task = bar.add_task("drawing on the clip", total=scored.frames)
        annotate_recording(
            request.recording,
            scored.swings,
            clip,
            lambda done: bar.update(task, completed=done),
            blurred,
        )
    _say(console, f"Annotated clip written to {clip}")


def _scored(recording: Path, plan: Plan, console: Console) -> ScoredRecording:
    facts = probe(recording)
    with progress_bar(console) as bar:
        task = bar.add_task(f"watching {recording.name}", total=facts.frame_count)
        return score_recording(recording, plan, lambda done: bar.update(task, completed=done))


def _tell(scored: ScoredRecording, console: Console) -> None:
    dropped = f", {scored.dropped_frames} dropped" if scored.dropped_frames else ""
    _say(console, f"{scored.frames} frames at {scored.fps:.1f} a second{dropped}.")
    if not scored.swings:
        _say(console, "No swing found: nobody took the club up, down and through the ball.")
    for swing in scored.swings:
        console.print(swing_table(swing))


def _cue(scored: ScoredRecording, request: ScoreRequest, console: Console) -> None:
    folder = new_folder(request.out, request.recording.stem)
    try:
        cues = open_cues(folder, request.hold_s, lambda line: _say(console, line), request.voice)
        try:
            for swing in scored.swings:
                cues.tell(swing.verdict)
        finally:
            cues.close()
    finally:
        drop_if_empty(folder)


def _say(console: Console, line: str) -> None:
    """One line stays one line, however wide the terminal."""
    console.print(line, soft_wrap=True, highlight=False, markup=False)
