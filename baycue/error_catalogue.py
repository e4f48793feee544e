"""Every error the program can tell: its code, what it means, what to do.

An error's own line names the place and the value; this says what kind of trouble it is.  Whatever
is raised has its entry here, and every entry is raised somewhere: a test walks the code.
"""

from dataclasses import dataclass

from baycue import errors
from baycue.errors import BaycueError


@dataclass(frozen=True, slots=True)
class Entry:
    """``kind``: the class that is raised; its subclasses have entries of their own."""

    kind: type[BaycueError]
    meaning: str
    remedy: str

    @property
    def code(self) -> str:
        """As it stands behind the error's line."""
        return self.kind.code

    @property
    def ends(self) -> str:
        """What it does to the command."""
        return f"exit code {self.kind.exit_code}"


@dataclass(frozen=True, slots=True)
class Notice:
    """Trouble that is told while a session goes on; ``said``: words by which to know it."""

    code: str
    said: str
    meaning: str
    remedy: str

    @property
    def ends(self) -> str:
        """What it does to the session."""
        return "the session goes on"


ENTRIES = (
    Entry(
        errors.BaycueError,
        "The command was asked for something that it cannot do.",
        "The line names the word and what is allowed; `--help` shows an example.",
    ),
    Entry(
        errors.NotInstalledError,
        "A part of the program, or a library that it needs, is missing or not the right one.",
        "Run `baycue doctor`; on Debian and Ubuntu .ci/system-packages brings what the system "
        "lacks; else install Baycue again.",
    ),
    Entry(
        errors.NoMemoryError,
        "The machine has no memory left, and the program ended.",
        "End other programs; a live session goes on when the same command is started again.",
    ),
    Entry(
        errors.ShortfallError,
        "A benchmark's figures are below their floors, or too few to say anything.",
        "Ask for more swings; if a floor was missed, a change made the program worse: look at it.",
    ),
    Entry(
        errors.RecordingError,
        "There is no recording under that name, or it may not be read.",
        "Check the name, the folder and the file's permissions.",
    ),
    Entry(
        errors.NotAVideoError,
        "The file is no video, or one without moving pictures or times.",
        "Give an MP4, MOV, MKV, WebM or AVI file as the camera wrote it.",
    ),
    Entry(
        errors.DamagedRecordingError,
        "The recording is empty, damaged or cut off, or changed while it was read.",
        "Copy it again from the camera; wait until it is copied whole; else record it again.",
    ),
    Entry(
        errors.SlowRecordingError,
        "The recording has too few frames a second to see a swing in.",
        "Set the camera to 60 frames a second or more; 24 is the least.",
    ),
    Entry(
        errors.TruthFileError,
        "The truth beside a synthetic recording is missing, damaged or of another version.",
        "Use a sample recording, or make it anew with `baycue make-recording`.",
    ),
    Entry(
        errors.CameraError,
        "There is no such camera, or it cannot be opened.",
        "`baycue devices` lists cameras; close other programs that use it; check a network "
        "camera's address, and that it is on and in the same network.",
    ),
    Entry(
        errors.CameraLostError,
        "A camera that was open gives no pictures any more.",
        "Check plug, power and network. A live session opens it again by itself.",
    ),
    Entry(
        errors.BadPictureError,
        "What the camera sends is no picture.",
        "Single ones do no harm. If all are, check the address: it must give video (MJPEG).",
    ),
    Entry(
        errors.FeedEndedError,
        "A recording that is played as if live has come to its end.",
        "Nothing; start again to see it again.",
    ),
    Entry(
        errors.PlanError,
        "The plan says something unknown, impossible or incomplete.",
        "Each line names file, line and key, what is allowed and the nearest guess; mend the "
        "plan, then `baycue plan check`.",
    ),
    Entry(
        errors.PlanFileError,
        "The plan file is missing, too large or no text.",
        "Check its name; save it as UTF-8.",
    ),
    Entry(
        errors.SceneError,
        "The recording plays, but no swing in it can be judged.",
        "The line says why; `baycue check-setup` tells what to move and which way.",
    ),
    Entry(
        errors.NobodySeenError,
        "Hardly anybody is seen in the recording.",
        "Point the camera so that the whole golfer shows, from head to feet; light the golfer.",
    ),
    Entry(
        errors.CompanyError,
        "A second person stands in the picture.",
        "Only the golfer may be in it, and nobody within the club's reach.",
    ),
    Entry(
        errors.FeetCutOffError,
        "The golfer's feet are cut off by the picture's edge.",
        "Tilt the camera down or move it back until both feet show.",
    ),
    Entry(
        errors.OtherViewError,
        "A swing was filmed from another side, or the other way round, than the plan says.",
        "Judge it by a plan of the same view, handedness and mirroring.",
    ),
    Entry(
        errors.OutputError,
        "A result cannot be written, or a file cannot be deleted.",
        "Name a folder that exists and may be written in; free some space on the disk.",
    ),
    Entry(
        errors.ExistsError,
        "There is a file of that name already, and nothing is ever overwritten.",
        "Name another file, or move the old one away.",
    ),
    Entry(
        errors.OtherRunError,
        "The folder holds results of another run, which must not be mixed with these.",
        "Name another folder with --out.",
    ),
    Entry(
        errors.NoWindowError,
        "There is no display for the big screen, or its window was closed.",
        "Start it on a machine with a screen, or do without: the screen is written as a picture.",
    ),
    Entry(
        errors.NoSoundError,
        "There is no loudspeaker, or no microphone, that can be used.",
        "`baycue devices` lists them; close programs that hold the device; without one the tone "
        "is written as a WAV, and live the screen alone tells.",
    ),
    Entry(
        errors.KeptError,
        "Nothing of what was asked for has been kept in that folder.",
        "Check the student's name and --keep; `baycue log sessions` lists what there is.",
    ),
    Entry(
        errors.DamagedKeptError,
        "What was kept of a swing or a session cannot be read.",
        "`baycue log check` tells which; take the file from a backup. All other swings are "
        "unharmed.",
    ),
    Entry(
        errors.NewerKeptError,
        "It was kept by a newer version of the program.",
        "Use that version or a newer one.",
    ),
    Entry(
        errors.LogError,
        "The log is damaged, is not as Baycue made it, or another program holds it.",
        "Close the other program; else `baycue log check --repair`, which sets it aside and makes "
        "it anew from the sidecars. No swing is lost.",
    ),
    Entry(
        errors.FilmGoneError,
        "The swing's film is gone or damaged, or none was kept.",
        "Take it from a backup; the swing's figures and its verdict are in its sidecar.",
    ),
    Entry(
        errors.OutsideError,
        "A name or a link leads out of the folder that swings are kept in.",
        "Put a real folder in the link's place, or name another with --keep; `baycue log check`.",
    ),
    Entry(
        errors.InUseError,
        "A session of that student is going on, or another program reads the log or changes films.",
        "End it, then try again.",
    ),
)

NOTICES = (
    Notice(
        "L1",
        "camera offline",
        "The camera gives no pictures, or the same one again and again.",
        "Check plug, power and network; it is opened again by itself.",
    ),
    Notice(
        "L2",
        "no sound: ",
        "The sound card cannot be used or was lost.",
        "Plug it in again; the screen tells the verdicts meanwhile. Key S tries a tone.",
    ),
    Notice(
        "L3",
        "not taken; the one before goes on",
        "The plan was saved with a mistake in it.",
        "The lines before it name line and key; mend them and save again.",
    ),
    Notice(
        "L4",
        "films are not kept",
        "The disk is nearly full; sidecars and verdicts go on.",
        "Free some space, or let old films go with `baycue log retention`.",
    ),
    Notice(
        "L5",
        "nothing is kept",
        "The disk is full, or the folder cannot be used.",
        "Free some space; name another folder with --keep at the next start.",
    ),
    Notice(
        "L6",
        "is not kept: ",
        "A swing was judged and told, but could not be kept; the line says why.",
        "Mend what the line names; the next swing is kept again.",
    ),
    Notice(
        "L7",
        "cannot be judged: ",
        "A swing was seen, but not enough of it; the line says what was missing.",
        "Key C checks the set-up again.",
    ),
    Notice(
        "L8",
        "a fault of this program",
        "Something went wrong that should not have.",
        "The session goes on without it; please tell the project, with the line.",
    ),
    Notice(
        "L9",
        "verdicts are told here",
        "There is no window for the big screen.",
        "Check the display; the terminal tells the verdicts meanwhile.",
    ),
    Notice(
        "L10",
        "Progress counts this session alone",
        "The log of earlier sessions cannot be read.",
        "`baycue log check --repair`.",
    ),
    Notice(
        "L11",
        "came too fast to be filmed",
        "The machine was too busy to film every picture; verdicts do not suffer.",
        "End other programs; ask for fewer frames a second with --fps.",
    ),
    Notice(
        "L12",
        "the session ended by itself",
        "The session's process is gone: no memory was left, somebody ended it, or it failed.",
        "Start the same command again; within 20 minutes the session goes on. End other programs.",
    ),
)


def entry_of(code: str) -> Entry | Notice | None:
    """What a code stands for, written large or small; None if nothing."""
    return next((e for e in (*ENTRIES, *NOTICES) if e.code == code.strip("[] ").upper()), None)
