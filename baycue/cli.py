"""The front door: every command, its help, and one line for every error."""

import os
import sys
from collections.abc import Sequence
from dataclasses import replace
from importlib.metadata import version
from pathlib import Path
from typing import Annotated

import typer

from baycue.commands.help_page import add_pages
from baycue.commands.log_app import log_app
from baycue.commands.plan_app import plan_app
from baycue.commands.terminal import show_whatever_comes, terminal
from baycue.doctor.system_libraries import missing_library
from baycue.errors import BaycueError, NoMemoryError, NotInstalledError, OutputError
from baycue.plan.stance import View

_HAND_OVER_S = 0.0005

SAFETY = (
    "Before you swing: check that nobody, no screen and no camera stands within the club's "
    "reach. Stop if anything hurts. The facility's rules, local codes and your own coach or "
    "doctor come first."
)
"""The usual cautions, shown with every command that has to do with swinging."""

app = typer.Typer(
    name="baycue",
    no_args_is_help=True,
    add_completion=True,
    rich_markup_mode="markdown",
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    help=f"""Watch a golf swing and say whether it met the coach's movement goals.

First look: `baycue demo` scores a sample recording; no camera is needed.

Your own: `baycue score swing.mp4 --plan configs/right_hander_knee_head_tempo.yaml`

{SAFETY}
""",
    epilog="Exit codes: 0 done, 2 wrong use, 3 recording, 4 plan, 5 what the picture shows, "
    "6 a result cannot be written.",
)


def _tell_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"baycue {version('baycue')}")
        raise typer.Exit


@app.callback()
def before_any_command(
    tell_version: Annotated[
        bool,
        typer.Option("--version", callback=_tell_version, is_eager=True, help="Tell which version"),
    ] = False,
) -> None:
    """Nothing is common to all commands but this option."""


app.add_typer(log_app, name="log")
app.add_typer(plan_app, name="plan")

Recording = Annotated[
    Path,
    typer.Argument(
        help="A video of the swing: MP4, MOV, MKV, WebM or AVI, 24 frames a second or more; "
        "60 or more show the club better",
        show_default=False,
    ),
]
PlanFile = Annotated[
    Path, typer.Option("--plan", "-p", help="The coach's plan, YAML; examples lie in configs/")
]
Out = Annotated[
    Path, typer.Option(help="Where screen pictures and tones go if there is no display or sound")
]
JsonFile = Annotated[
    Path | None,
    typer.Option(
        "--json", help="Also write the scores as JSON, a new file; see `baycue schema score`"
    ),
]
AnnotatedClip = Annotated[
    Path | None,
    typer.Option("--annotate", help="Also write the clip, MP4, with body, shaft and verdict"),
]
Silent = Annotated[bool, typer.Option("--table-only", help="No big screen and no tone")]
Clips = Annotated[
    Path | None,
    typer.Option(help="Keep the rendered clips here and use those that are there already"),
]
Tones = Annotated[str, typer.Option(help="The voice of the answers; `baycue tones` lists them")]
Hold = Annotated[float, typer.Option(min=0.0, help="Seconds that each verdict stays on the screen")]

_OUT = Path("baycue_output")


@app.command(epilog=SAFETY)
def score(
    recording: Recording,
    plan: PlanFile,
    out: Out = _OUT,
    json_file: JsonFile = None,
    annotate: AnnotatedClip = None,
    table_only: Silent = False,
    hold: Hold = 3.0,
    tones: Tones = "standard",
    blur_faces: Annotated[
        bool, typer.Option("--blur-faces", help="Make the head unrecognisable in that clip")
    ] = False,
) -> None:
    """Score a recorded swing against a plan.

    Finds each swing, its club and its checkpoints, measures what the plan asks and answers
    pass, fail or too close to call: in a table, on the big screen and by ear. No file is
    ever overwritten.

    Example: `baycue score swing.mp4 --plan configs/left_hander_knee.yaml --json swing.json`
    """
    from baycue.commands.score import ScoreRequest, run_score
    from baycue.cues.voice_catalogue import voice_named

    voice = voice_named(tones)
    request = ScoreRequest(
        recording, plan, out, json_file, annotate, table_only, hold, voice, blur_faces
    )
    run_score(request, terminal())


@app.command("score-folder")
def score_folder(
    folder: Annotated[Path, typer.Argument(help="Looked through with all its folders")],
    plan: PlanFile,
    out: Annotated[Path, typer.Option(help="Folder for results; run again to go on")] = _OUT
    / "folder",
    workers: Annotated[
        int | None,
        typer.Option(min=1, help="Processes at work; else one a core", show_default=False),
    ] = None,
    scheduler: Annotated[
        str | None,
        typer.Option(
            help="Work on a Dask cluster instead: its address, or `local`; needs baycue[academy]"
        ),
    ] = None,
) -> None:
    """Score every recording in a folder against one plan.

    Clips are scored in parallel, each result is a file of its own, and one summary tells of
    all. The same command goes on where it stopped; a clip or plan that changed is scored anew
    and the older result stays. A clip that cannot be used is a line in the summary.

    Example: `baycue score-folder season_2026 --plan configs/left_hander_knee.yaml --out scores`
    """
    from baycue.commands.score_folder import FolderRequest, run_score_folder

    at_work = workers or os.cpu_count() or 1
    run_score_folder(FolderRequest(folder, plan, out, at_work, scheduler), terminal())


@app.command("benchmark-folder")
def benchmark_folder(
    folder: Annotated[Path, typer.Argument(help="A few recordings")],
    plan: PlanFile,
    workers: Annotated[int, typer.Option(min=1, help="Processes to set against one")] = 2,
) -> None:
    """Measure how much faster several processes score a folder than one does.

    Prints clips a minute of both and their ratio on this machine; nothing is kept.

    Example: `baycue benchmark-folder clips --plan configs/left_hander_knee.yaml --workers 4`
    """
    from baycue.commands.benchmark_folder import run_benchmark_folder

    run_benchmark_folder(folder, plan, workers, terminal())


@app.command()
def report(
    student: Annotated[str, typer.Argument(help="As the plan has it")],
    since: Annotated[str | None, typer.Option("--from", help="First day: 2026-11-01")] = None,
    until: Annotated[str | None, typer.Option("--to", help="Last day")] = None,
    text: Annotated[
        bool, typer.Option("--text", help="Print it instead of writing a page")
    ] = False,
    out: Annotated[Path, typer.Option(help="The page, a new file")] = Path("practice.html"),
    keep: Annotated[
        Path | None,
        typer.Option(help="Where swings were kept; else the usual place", show_default=False),
    ] = None,
    blur_faces: Annotated[
        bool, typer.Option("--blur-faces", help="Make heads in pictures unrecognisable")
    ] = False,
) -> None:
    """Tell the coach how the practice went: one page that needs nothing beside it.

    What was asked and how often it was met, session by session, with pictures of the best and
    a typical failing swing. Opens in any browser without a network, and prints to A4.

    Example: `baycue report Heron --from 2026-11-01 --out heron.html --blur-faces`
    """
    from baycue.commands.report import ReportRequest, day, run_report
    from baycue.keep.place import Place, default_folder

    first, last = day(since, "--from"), day(until, "--to")
    place, page = Place(keep or default_folder()), None if text else out
    run_report(ReportRequest(student, place, first, last, page, blur_faces), terminal())


@app.command()
def replay(
    swing: Annotated[
        Path | None,
        typer.Argument(
            help="A kept swing (its .json.gz) or a recording; else the newest kept swing",
            show_default=False,
        ),
    ] = None,
    against: Annotated[
        Path | None, typer.Option(help="Another swing beside it, kept or recorded")
    ] = None,
    plan: Annotated[
        Path | None, typer.Option("--plan", "-p", help="The plan that a recording is scored by")
    ] = None,
    against_plan: Annotated[
        Path | None, typer.Option(help="The other recording's plan, if it is another")
    ] = None,
    number: Annotated[int, typer.Option(min=1, help="Which swing of a recording")] = 1,
    speed: Annotated[float, typer.Option(help="1, 0.5, 0.25 or 0.125")] = 0.25,
    at: Annotated[str | None, typer.Option(help="Begin standing at a checkpoint: P6")] = None,
    together: Annotated[
        str, typer.Option(help='The other swing "side by side", as a "ghost", or "alone"')
    ] = "side by side",
    downswing: Annotated[bool, typer.Option("--downswing", help="Only the way down")] = False,
    film: Annotated[Path | None, typer.Option(help="Write an MP4 instead of a window")] = None,
    gif: Annotated[Path | None, typer.Option(help="Write a GIF")] = None,
    still: Annotated[Path | None, typer.Option(help="Write a PNG")] = None,
    blur_faces: Annotated[
        bool, typer.Option("--blur-faces", help="Make heads unrecognisable, in files too")
    ] = False,
    out: Annotated[Path, typer.Option(help="Where the keys M, I and T write to")] = _OUT,
    keep: Annotated[
        Path | None,
        typer.Option(help="Where swings were kept; else the usual place", show_default=False),
    ] = None,
) -> None:
    """See a swing again in slow motion, with what its targets measured drawn on it.

    Beside or over another swing if you like, checkpoint by checkpoint; a left-hander and a
    right-hander are turned the same way round. Keys and mouse are told at the foot.

    Example: `baycue replay swing.mp4 --plan configs/left_hander_knee.yaml --at P6`
    """
    from baycue.commands.replay import ReplayRequest, run_replay
    from baycue.keep.place import Place, default_folder

    request = ReplayRequest(
        swing,
        against,
        plan,
        against_plan,
        number,
        Place(keep or default_folder()),
        out,
        speed,
        at,
        together,
        downswing,
        film,
        gif,
        still,
        blur_faces,
    )
    run_replay(request, terminal())


@app.command(epilog=SAFETY)
def demo(out: Out = _OUT, hold: Hold = 3.0) -> None:
    """Score a sample recording that comes with the project: no camera needed.

    The golfer and all numbers are invented. Where there is no display or no sound card, the
    big screen becomes a PNG and the tone a WAV.

    Example: `baycue demo --hold 10`
    """
    from baycue.commands.demo import run_demo

    run_demo(out, hold, terminal())


@app.command("check-setup", epilog=SAFETY)
def check_setup(
    recording: Recording,
    plan: PlanFile,
    seconds: Annotated[
        float, typer.Option(min=0.5, max=10.0, help="How much of the start is looked at")
    ] = 1.5,
) -> None:
    """Check on a recording's first seconds whether camera, light and golfer are set up right.

    The golfer stands at the ball and holds still meanwhile. Each matter is a go, a no-go with
    what to move and which way, or unsure. Exit code 5 if anything must be mended.

    Example: `baycue check-setup swing.mp4 --plan configs/left_hander_knee.yaml`
    """
    from baycue.commands.check_setup import CheckSetUpRequest, run_check_setup
    from baycue.errors import SceneError

    report = run_check_setup(CheckSetUpRequest(recording, plan, seconds), terminal())
    if not report.ready:
        raise typer.Exit(SceneError.exit_code)


@app.command("make-recording")
def make_recording(
    name: Annotated[
        str | None, typer.Argument(help="A recipe's name; without one, all are listed")
    ] = None,
    out: Annotated[Path, typer.Option(help="Folder for the clip and its truth")] = _OUT,
    everything: Annotated[bool, typer.Option("--all", help="Make every recipe")] = False,
) -> None:
    """Make recordings of invented golfers whose exact truth is written beside them.

    For trying things out without a camera, and for checking what is measured: the truth
    says where each joint and the club really were.

    Example: `baycue make-recording knee_pass_30fps --out recordings`
    """
    from baycue.commands.make_recording import run_make_recording

    run_make_recording(name, everything, out, terminal())


@app.command("scale-board", epilog=SAFETY)
def scale_board(
    paper: Annotated[str, typer.Option(help="A4 or Letter")] = "A4",
    out: Annotated[Path, typer.Option(help="Folder for the PDF and the PNG")] = _OUT,
) -> None:
    """Write the board to print, from which the picture's scale is read.

    Print it at 100 %, check its 100 mm line with a ruler, fix it to stiff card and stand it
    upright beside the lead foot, in line with the ankles and facing the camera, while the
    recording begins. Nothing may stand where the club or the ball passes: take it away before
    you swing. The plan then says `scale: {by: board}`.

    Example: `baycue scale-board --paper Letter --out prints`
    """
    from baycue.commands.scale_board import run_scale_board

    run_scale_board(paper, out, terminal())


@app.command()
def schema(
    of: Annotated[str, typer.Argument(help="plan: the coach's YAML; score: what --json writes")],
) -> None:
    """Print the JSON Schema of plans or of scores, for editors and other programs.

    Example: `baycue schema plan > plan.schema.json`
    """
    from baycue.commands.schema import run_schema

    run_schema(of)


@app.command()
def benchmark(recording: Recording, plan: PlanFile) -> None:
    """Measure speed: the whole spine against the bare pose call on the same frames.

    Prints frames a second of both on this machine and their ratio; takes a few times as long
    as scoring.

    Example: `baycue benchmark swing.mp4 --plan configs/left_hander_knee.yaml`
    """
    from baycue.commands.benchmark import run_benchmark

    run_benchmark(recording, plan, terminal())


@app.command()
def bench(
    swings: Annotated[int, typer.Option(min=1, help="How many swings to draw")] = 200,
    seed: Annotated[int, typer.Option(min=0, help="Which population")] = 1,
    out: Annotated[Path, typer.Option(help="Folder for results; run again to go on")] = _OUT
    / "bench",
    workers: Annotated[int, typer.Option(min=1, help="Processes at work")] = 2,
    short: Annotated[
        bool, typer.Option("--short", help="A few swings, and fail below the floors; for CI")
    ] = False,
    clips: Clips = None,
) -> None:
    """Say how right the program is, on random synthetic swings whose truth is known.

    Draws invented golfers, cameras and swings, scores each blind and compares with the
    truth: tables here, bench.json and a page with plots in the folder. Each result is
    kept at once; the same command goes on where it stopped. Real golfers are not measured.

    Example: `baycue bench --swings 60 --seed 2 --out bench_2`
    """
    from baycue.commands.bench import BenchRequest, run_bench, short_request

    asked = short_request(out, workers) if short else BenchRequest(swings, seed, out, workers)
    run_bench(replace(asked, clips=clips), terminal())


@app.command("bench-calibrate")
def bench_calibrate(
    swings: Annotated[int, typer.Option(min=1, help="How many swings to draw")] = 120,
    seed: Annotated[int, typer.Option(min=0, help="Which population; not the bench's")] = 2,
    out: Annotated[Path, typer.Option(help="Folder for calibration.yaml")] = _OUT / "calibrate",
    workers: Annotated[int, typer.Option(min=1, help="Processes at work")] = 2,
    clips: Clips = None,
    view: Annotated[View, typer.Option(help="face-on or down-the-line")] = View.FACE_ON,
) -> None:
    """Fit anew how the pose model's landmarks stand to true joints.

    Looks at random synthetic swings, fits the constants on every other one and tests them on
    the rest; writes calibration.yaml (calibration_behind.yaml down the line), as the package
    keeps it in baycue/measures.

    Example: `baycue bench-calibrate --swings 60 --seed 4`
    """
    from baycue.commands.bench_calibrate import CalibrateRequest, run_bench_calibrate

    request = CalibrateRequest(swings, seed, out, workers, clips)
    if view is View.FACE_ON:
        run_bench_calibrate(request, terminal())
        return
    from baycue.commands.bench_calibrate_behind import run_bench_calibrate_behind

    run_bench_calibrate_behind(request, terminal())


@app.command("bench-measures")
def bench_measures(
    swings: Annotated[int, typer.Option(min=0, help="How many swings face-on")] = 60,
    behind: Annotated[int, typer.Option(min=0, help="How many swings down the line")] = 40,
    seed: Annotated[int, typer.Option(min=0, help="Which population")] = 1,
    out: Annotated[Path, typer.Option(help="Folder for results; run again to go on")] = _OUT
    / "bench",
    workers: Annotated[int, typer.Option(min=1, help="Processes at work")] = 2,
    clips: Clips = None,
    write_figures: Annotated[
        bool,
        typer.Option("--write-figures", help="Write baycue/measures/figures.yaml, over the old"),
    ] = False,
) -> None:
    """Say how right every measure is, face-on and down the line.

    Takes each measure of the catalogue on random synthetic swings, blind, and compares with the
    truth: a table here, measures.json in the folder. Each result is kept at once; the same
    command goes on where it stopped. Real golfers are not measured.

    Example: `baycue bench-measures --swings 60 --behind 40 --write-figures`
    """
    from baycue.commands.bench_measures import MeasuresRequest, run_bench_measures

    request = MeasuresRequest(swings, behind, seed, out, workers, clips, write_figures)
    run_bench_measures(request, terminal())


@app.command("bench-detector")
def bench_detector(
    swings: Annotated[int, typer.Option(min=1, help="Swings, 30 and 60 fps in turn")] = 10,
    seed: Annotated[int, typer.Option(min=0, help="Which population")] = 3,
    out: Annotated[Path, typer.Option(help="Folder for results; run again to go on")] = _OUT
    / "bench",
) -> None:
    """Say how well the pose model follows each joint, and what its own smoothing costs.

    Renders random synthetic swings and follows them three ways: MediaPipe told the true
    time, told what Baycue tells it, and shown each picture alone. Prints error, lag, jitter
    and each landmark's noise against the truth, and writes detector.json.

    Example: `baycue bench-detector --swings 4 --out bench_detector`
    """
    from baycue.commands.bench_detector import DetectorRequest, run_bench_detector

    run_bench_detector(DetectorRequest(swings, seed, out), terminal())


@app.command("bench-scale")
def bench_scale(
    golfers: Annotated[int, typer.Option(min=1, help="How many golfers to draw")] = 36,
    seed: Annotated[int, typer.Option(min=0, help="Which population")] = 5,
) -> None:
    """Say how right the scale is by stature, stick and board, on still synthetic golfers.

    Draws invented golfers and cameras, puts a stick and a board beside them as well as people
    would, and compares pixels per metre and the camera's yaw with the truth.

    Example: `baycue bench-scale --golfers 12`
    """
    from baycue.commands.bench_scale import run_bench_scale

    run_bench_scale(golfers, seed, terminal())


@app.command("bench-idle")
def bench_idle(
    minutes: Annotated[float, typer.Option(min=0.1, help="How much to draw")] = 30.0,
    seed: Annotated[int, typer.Option(min=0, help="Which population")] = 1,
    out: Annotated[Path, typer.Option(help="Folder for results; run again to go on")] = _OUT
    / "bench_idle",
    workers: Annotated[int, typer.Option(min=1, help="Processes at work")] = 2,
    clips: Clips = None,
) -> None:
    """Say how often the program sees a swing where there is none.

    Draws invented golfers who waggle, tee a ball, stretch, chip, swing half, walk in and out,
    an empty bay, people passing by or looking on; counts every swing told of. Each clip's
    result is kept at once; the same command goes on where it stopped. Clips with a false
    swing are kept in the folder.

    Example: `baycue bench-idle --minutes 5 --seed 2 --out idle_2`
    """
    from baycue.commands.bench_idle import IdleRequest, run_bench_idle

    run_bench_idle(IdleRequest(minutes, seed, out, workers, clips), terminal())


@app.command(epilog=SAFETY)
def live(
    source: Annotated[
        str,
        typer.Option(
            "--source",
            "-s",
            help="A webcam's number or name (`baycue devices`), the address of a phone or network "
            "camera (http, rtsp), or a recording to play as if live",
        ),
    ],
    plan: Annotated[
        list[Path],
        typer.Option("--plan", "-p", help="The coach's plan; give several to step through by N"),
    ],
    size: Annotated[str, typer.Option(help="Picture size to ask a webcam for")] = "1280x720",
    fps: Annotated[float, typer.Option(min=1, help="Frames a second to ask a webcam for")] = 60.0,
    exposure: Annotated[
        float | None, typer.Option(min=0.01, help="Fixed exposure of a webcam, milliseconds")
    ] = None,
    mjpg: Annotated[bool, typer.Option(help="Ask a webcam for packed pictures (MJPG)")] = True,
    feedback: Annotated[
        str, typer.Option(help="at-once, delay:SECONDS after the verdict, or on-request (key A)")
    ] = "at-once",
    window: Annotated[bool, typer.Option(help="Show the big screen")] = True,
    display: Annotated[int, typer.Option(min=0, help="Which screen, from 0")] = 0,
    full_screen: Annotated[bool, typer.Option("--full-screen", help="Fill the screen")] = False,
    sound: Annotated[bool, typer.Option(help="Sound the tones")] = True,
    sound_device: Annotated[
        str | None, typer.Option(help="Number or name (`baycue devices`); else the system's own")
    ] = None,
    volume: Annotated[float, typer.Option(min=0.0, max=1.0, help="Of the tones, 0 to 1")] = 1.0,
    tones: Tones = "standard",
    microphone: Annotated[
        str | None,
        typer.Option(help="Number, name or `default`: tells a ball struck from a practice swing"),
    ] = None,
    skip_set_up: Annotated[
        bool, typer.Option("--skip-set-up", help="Leave out the set-up check at the start")
    ] = False,
    keep: Annotated[
        Path | None,
        typer.Option(help="Folder that swings are kept in; else your own data folder"),
    ] = None,
    no_keep: Annotated[bool, typer.Option("--no-keep", help="Film and keep nothing")] = False,
    keep_as: Annotated[
        str | None, typer.Option(help="Keep the student under this name, a pseudonym")
    ] = None,
    compact: Annotated[
        bool, typer.Option(help="Make films small between swings, and at the end what is left")
    ] = True,
    vitals: Annotated[
        Path | None,
        typer.Option(help="A new file for a line every 5 s: frames, poses, latencies, memory"),
    ] = None,
    out: Annotated[Path, typer.Option(help="Where the keys M, I and T write to")] = _OUT,
    against: Annotated[
        Path | None,
        typer.Option(help="The coach's reference for the replay, a kept swing or a recording"),
    ] = None,
    against_plan: Annotated[
        Path | None, typer.Option(help="What a recorded reference is scored by, if another plan")
    ] = None,
) -> None:
    """Watch a golfer through a camera and answer every swing.

    First the set-up check: it ends by itself once it has stood as go for two seconds, or with
    the first swing; key A goes on whatever it says. Then pass, fail or too close to call by a
    tone and on the big screen. A camera or sound card that is lost is told of and opened again.
    Every swing is filmed and kept (`baycue log`), on this machine only.

    Example: `baycue live --source 0 --plan configs/left_hander_knee.yaml --exposure 4`
    """
    from baycue.capture.settings import CameraSettings
    from baycue.commands.keeping import KeepRequest
    from baycue.commands.live import LiveRequest, picture_size, run_live
    from baycue.cues.sound_device import SoundChoice
    from baycue.cues.voice_catalogue import voice_named
    from baycue.live.feedback import feedback_mode

    try:
        width_px, height_px = picture_size(size)
        mode = feedback_mode(feedback)
    except ValueError as error:
        raise BaycueError(str(error)) from None
    request = LiveRequest(
        source,
        plan,
        CameraSettings(width_px, height_px, fps, exposure, mjpg),
        mode,
        window,
        sound,
        full_screen,
        display,
        SoundChoice(sound_device, volume),
        voice_named(tones),
        microphone,
        skip_set_up,
        KeepRequest(keep, no_keep, keep_as, compact),
        vitals,
        out=out,
        against=against,
        against_plan=against_plan,
    )
    run_live(request, terminal())


@app.command()
def doctor(
    keep: Annotated[
        Path | None,
        typer.Option(help="Where swings would be kept; else the usual place", show_default=False),
    ] = None,
) -> None:
    """Look whether this machine is fit for a session, and say what to do where it is not.

    Python and libraries, pose model, screen, sound, cameras, disk. Nothing is changed. Exit
    code 2 if anything must be mended.

    Example: `baycue doctor`
    """
    from baycue.commands.doctor import run_doctor
    from baycue.errors import BaycueError
    from baycue.keep.place import default_folder

    if not run_doctor(keep or default_folder(), terminal()).ready:
        raise typer.Exit(BaycueError.exit_code)


@app.command()
def licences(
    as_json: Annotated[
        bool, typer.Option("--json", help="As a bill of materials: CycloneDX 1.6")
    ] = False,
) -> None:
    """List what ships with Baycue and which packages it needs, each with its licence.

    Rows marked (!) ask for more than Baycue's own licence when they are passed on. The list was
    made on Linux; versions are what pip chose here.

    Example: `baycue licences`
    """
    from baycue.commands.licences import run_licences

    run_licences(as_json, terminal())


@app.command("tones")
def hear_tones(
    voice: Annotated[
        str | None, typer.Argument(help="Whose tones; without one, all voices are listed")
    ] = None,
    out: Out = _OUT,
) -> None:
    """Play a voice's three tones: pass, fail, too close to call.

    Where there is no sound card, each becomes a WAV.

    Example: `baycue tones standard`
    """
    from baycue.commands.tones import run_tones

    run_tones(voice, out, terminal())


@app.command()
def devices() -> None:
    """List the cameras and sound devices of this machine.

    Example: `baycue devices`
    """
    from baycue.commands.devices import run_devices

    run_devices(terminal())


@app.command()
def latency(
    swings: Annotated[int, typer.Option(min=1, help="How many swings to measure")] = 50,
    clip: Annotated[
        Path | None, typer.Option(help="A sample with its truth beside it; else one of 30 fps")
    ] = None,
    plan: Annotated[Path | None, typer.Option("--plan", "-p", help="The plan to judge by")] = None,
    heard: Annotated[bool, typer.Option(help="With screen, sound card and recorder")] = True,
    kept: Annotated[
        bool, typer.Option(help="Film and keep every swing too, in a folder deleted afterwards")
    ] = False,
    compact: Annotated[bool, typer.Option(help="With --kept: make films small meanwhile")] = True,
) -> None:
    """Measure how long after impact the tone comes: software, estimated output, end to end.

    A clip is served frame by frame as a network camera would, the whole live loop watches it,
    the tone goes into a silent sound card and is recorded from there. Needs PulseAudio and
    Xvfb; without them only the software is measured.

    Example: `baycue latency --swings 50`
    """
    from baycue.commands.latency import LatencyRequest, run_latency

    run_latency(LatencyRequest(clip, plan, swings, heard, kept, compact), terminal())


@app.command("benchmark-log")
def benchmark_log(
    swings: Annotated[int, typer.Option(min=100, help="How long the log is")] = 100_000,
) -> None:
    """Measure how long screens wait for a long log, beside the same log without indexes.

    Example: `baycue benchmark-log --swings 100000`
    """
    from baycue.commands.benchmark_log import run_benchmark_log

    run_benchmark_log(swings, terminal())


@app.command()
def soak(
    minutes: Annotated[float, typer.Option(min=0.1, help="How long to practise")] = 120.0,
    out: Annotated[Path, typer.Option(help="Folder for results, a new one each time")] = _OUT
    / "soak",
    films_gb: Annotated[
        float, typer.Option(min=0.0, help="Films beyond so many gigabytes go, the oldest first")
    ] = 1.0,
    heard: Annotated[bool, typer.Option(help="With screen and sound card")] = True,
    read: Annotated[
        bool, typer.Option("--read", help="Run nothing: tell what lies in the folder so far")
    ] = False,
) -> None:
    """Practise for hours with nobody there, and tell whether anything grows, slows or is lost.

    A camera on this machine shows a golfer who tees a ball, rehearses, stands to it and swings,
    every 20 to 30 seconds, 720p at 30 frames a second, in real time; `baycue live` watches with
    all it has, keeps every swing in a temporary folder and shows its replay. Memory, threads,
    file handles, poses and latencies are noted every 5 s, then told as a table of slopes and a
    page with plots. After a kill `--read` tells what had been noted.

    Example: `baycue soak --minutes 10 --out my_soak`
    """
    from baycue.commands.soak import SoakRequest, run_read, run_soak

    if read:
        run_read(out, terminal())
    else:
        run_soak(SoakRequest(minutes, out, films_gb, heard), terminal())


@app.command("benchmark-live")
def benchmark_live(
    minutes: Annotated[float, typer.Option(min=0.1, help="How long to run")] = 10.0,
) -> None:
    """Measure whether the live loop keeps up with 720p at 60 frames a second, and stays flat.

    Prints frames lost, poses a second, memory and its slope.

    Example: `baycue benchmark-live --minutes 10`
    """
    from baycue.commands.benchmark_live import run_benchmark_live

    run_benchmark_live(minutes, terminal())


@app.command("errors")
def errors(
    code: Annotated[
        str | None,
        typer.Argument(help="As it stands behind an error's line: R3", show_default=False),
    ] = None,
) -> None:
    """List every error the program can tell, or explain one: what it means, what to do.

    Example: `baycue errors R3`
    """
    from baycue.commands.errors import run_errors

    run_errors(code, terminal())


@app.command("rehearse-faults")
def rehearse_faults(
    only: Annotated[
        list[str] | None, typer.Option(help="This fault alone; may be given again")
    ] = None,
    out: Annotated[
        Path, typer.Option(help="Folder for results, one a fault; run again to go on")
    ] = _OUT / "faults",
    anew: Annotated[bool, typer.Option(help="Also those that have a result already")] = False,
    show_list: Annotated[bool, typer.Option("--list", help="Only list the faults")] = False,
) -> None:
    """Put faults upon a live session and see what the golfer is told, and what is lost.

    Each in the middle of a session of its own, with real parts: a camera on the network, a sound
    server, a display, a disk, the plan's file, the processes. Needs Linux, PulseAudio and Xvfb;
    some faults need root, to mount a small disk. Fails if a fault ended badly.

    Example: `baycue rehearse-faults --only camera-stalled`
    """
    from baycue.commands.rehearse_faults import FaultsRequest, list_faults, run_rehearse_faults

    if show_list:
        list_faults(terminal())
    else:
        run_rehearse_faults(FaultsRequest(only or (), out, anew), terminal())


add_pages(app)


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command line; an error is one line and an exit code, never a traceback.

    ``arguments``: those after the program's name; None takes the process's own.
    """
    # While one thread scores a swing another finds poses; Python's usual 5 ms between hand-overs
    # is a quarter of a pose.
    sys.setswitchinterval(_HAND_OVER_S)
    show_whatever_comes(sys.stdout)
    try:
        app(args=arguments)
    except BaycueError as error:
        _fail(error)
    except MemoryError:
        _fail(NoMemoryError("no memory is left; end other programs and start again"))
    except BrokenPipeError:  # whoever reads our output has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(1)
    except ImportError as error:
        if missing_library(str(error)) is None:
            raise
        _fail(NotInstalledError(str(error)))
    except OSError as error:  # a full disk, a folder taken away
        _fail(OutputError(str(error)))


def _fail(error: BaycueError) -> None:
    """Its text, and behind it the code that ``baycue errors`` explains."""
    lacking = missing_library(str(error))
    print(f"baycue: {lacking or error} [{error.code}]", file=sys.stderr)
    sys.exit(error.exit_code)


if __name__ == "__main__":
    main()
