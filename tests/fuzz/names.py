"""Names of students, pseudonyms, cameras and clips, through everything that is made of them."""

import io
import json
from contextlib import suppress
from pathlib import Path
from random import Random

from baycue.commands.folders import new_folder
from baycue.commands.keeping import Keeping, KeepRequest
from baycue.commands.log_show import run_export, run_sessions, run_swings
from baycue.commands.terminal import terminal
from baycue.errors import BaycueError
from baycue.folder.clips import clips_in
from baycue.folder.store import keep_whole
from baycue.keep.check import check
from baycue.keep.forget import belongings, forget
from baycue.keep.kept_session import KeptSession
from baycue.keep.place import Place
from baycue.keep.pseudonym import source_of_another, under_another_name
from baycue.keep.record import PlanText
from baycue.keep.told_record import record_of
from baycue.plan.load import parse_plan
from tests.fuzz.target import Target, each
from tests.fuzz.words import HOSTILE_WORDS
from tests.kept_swing import PLAN
from tests.test_keep_session import told

_UNDECODABLE = b"\xff".decode("utf-8", "surrogateescape")
"""What Python makes of a byte in a command line or a file's name that is no UTF-8."""
_PIECES = (
    *HOSTILE_WORDS,
    _UNDECODABLE,
    "../",
    "/",
    "\\",
    "..",
    ".",
    " ",
    "Heron",
    "_",
    "\x00",
    ":",
    "\u2215",
)


def draw(random: Random) -> bytes:
    """A student's name, a pseudonym and a file's name, and whether links lie in the way."""
    names = [_name(random) for _ in range(3)]
    return json.dumps([*names, random.random() < 0.2]).encode()


def _name(random: Random) -> str:
    if random.random() < 0.3:
        name = random.choice(HOSTILE_WORDS)
    elif random.random() < 0.4:
        name = "".join(chr(random.randrange(1, 0x11000)) for _ in range(random.randint(1, 12)))
    else:
        name = "".join(random.choice(_PIECES) for _ in range(random.randint(1, 5)))[:8000]
    return "".join(c for c in name if not "\ud800" <= c <= "\udfff" or c == _UNDECODABLE)


def feed(data: bytes, folder: Path) -> None:
    """Keep a swing of the student, another under the pseudonym, a clip's result; delete both."""
    student, alias, file, links = json.loads(data)
    alias, file = alias.replace("\x00", ""), file.replace("\x00", "")  # as in any command line
    place = Place(folder / "kept")
    if links:
        _lay_links(place, (student, alias), folder.parent / "beside")
    each(
        lambda: _keep_student(place, student, file),
        lambda: _keep_alias(place, alias, file),
        lambda: _show(place, student, folder),
        lambda: _score(folder, file),
        lambda: _delete(place, student),
        lambda: _delete(place, alias),
    )


def _lay_links(place: Place, names: tuple[str, ...], to: Path) -> None:
    """Links in the place of students' folders, which lead elsewhere."""
    place.students.mkdir(parents=True)
    for name in names:
        with suppress(FileExistsError):
            place.student(name).symlink_to(to, target_is_directory=True)


def _keep_student(place: Place, student: str, file: str) -> None:
    """As the plan lets a student be called, and by what the camera and the plan are called."""
    name = parse_plan(PLAN.replace("Heron", json.dumps(student)), "plan.yaml").student
    swing = told(student="Heron")
    session = KeptSession(place, name, source=file)
    record = session.stamped(record_of(swing))
    session.keep_first(record)
    session.keep(record)
    session.close()
    assert not session.log_trouble, session.log_trouble
    assert not check(place).wrong, check(place).wrong


def _keep_alias(place: Place, alias: str, file: str) -> None:
    """The plan that is kept must name the pseudonym and nobody else."""
    swing = told(student="Heron")
    Keeping(KeepRequest(place.folder, alias=alias), [swing.student], lambda line: None)
    other = under_another_name(swing, alias)
    assert parse_plan(other.plan.text, "plan.yaml").student == alias
    session = KeptSession(place, alias, source_of_another(file, swing.student))
    session.keep(session.stamped(record_of(other)))
    session.close()
    assert not session.log_trouble, session.log_trouble


def _show(place: Place, student: str, folder: Path) -> None:
    console = terminal(io.StringIO())
    each(
        lambda: run_sessions(place.folder, None, 50, console),
        lambda: run_sessions(place.folder, student, 50, console),
        lambda: run_swings(place.folder, None, console),
        lambda: run_export(place.folder, folder / "all.csv", None, console),
        lambda: run_export(place.folder, folder / "all.jsonl", student, console),
    )


def _score(folder: Path, file: str) -> None:
    """What is called after a clip: the folder of its pictures, its result."""
    new_folder(folder / "out", PlanText(Path(file).stem, "").name)
    clips = folder / "clips"
    clips.mkdir()
    with suppress(OSError, ValueError):  # what no file can be called
        (clips / f"{file.replace('/', '_')}.mp4").write_bytes(b"")
    for clip in clips_in(clips):
        keep_whole(folder / "scores" / f"{clip.name}.json", b"{}")


def _delete(place: Place, name: str) -> None:
    linked = place.student(name).is_symlink()
    try:
        forget(place, belongings(place, name))
    except BaycueError:
        return
    assert not linked, "a link was deleted through"
    assert not place.student(name).exists()


TARGET = Target("name", 0.03, draw, feed)
