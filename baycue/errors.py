"""Every error a user can cause or meet.

    BaycueError             base, and wrong use; its text is one clear line: what, where, what to do
    +-- NotInstalledError   a part of the program, or a library, is not there
    +-- NoMemoryError       the machine has no memory left
    +-- ShortfallError      a benchmark came out below what is asked of it
    +-- RecordingError      a recording cannot be read or is not usable
    |   +-- NotAVideoError, DamagedRecordingError, SlowRecordingError, TruthFileError
    |   +-- CameraError     a camera cannot be opened, or went away
    |       +-- CameraLostError, BadPictureError, FeedEndedError
    +-- PlanError           a plan file is wrong
    |   +-- PlanFileError   it cannot even be read
    +-- SceneError          the picture does not show what the job needs
    |   +-- NobodySeenError, CompanyError, FeetCutOffError, OtherViewError
    +-- OutputError         a result cannot be written (nothing is ever overwritten)
        +-- ExistsError, OtherRunError, NoWindowError, NoSoundError
        +-- KeptError       what was kept is damaged, or of a newer version
            +-- DamagedKeptError, NewerKeptError, LogError, FilmGoneError, OutsideError, InUseError

The command line prints the text with the error's ``code`` behind it and exits with ``exit_code``;
no traceback.  ``error_catalogue`` says of each code what it means and what to do.
"""


class BaycueError(Exception):
    """Base of all errors with a message meant for the user; by itself: wrong use."""

    code = "U1"
    exit_code = 2


class NotInstalledError(BaycueError):
    """A part of the program or a library that it needs is missing or is not the right one."""

    code = "U2"


class NoMemoryError(BaycueError):
    """The machine has no memory left for what was asked."""

    code = "U4"


class ShortfallError(BaycueError):
    """A benchmark's figures are below their floors, or too few to say anything."""

    code = "U3"


class RecordingError(BaycueError):
    """A recording is missing or may not be read."""

    code = "R1"
    exit_code = 3


class NotAVideoError(RecordingError):
    """A file is no video, or a video without pictures or times."""

    code = "R2"


class DamagedRecordingError(RecordingError):
    """A recording is empty, damaged or cut off, or changes while it is read."""

    code = "R3"


class SlowRecordingError(RecordingError):
    """A recording has too few frames a second."""

    code = "R4"


class TruthFileError(RecordingError):
    """The truth beside a synthetic recording is missing or damaged."""

    code = "R5"


class CameraError(RecordingError):
    """A camera is not there or cannot be opened."""

    code = "C1"


class CameraLostError(CameraError):
    """A camera that was open gives no pictures any more."""

    code = "C2"


class BadPictureError(CameraError):
    """What a camera sends is no picture."""

    code = "C3"


class FeedEndedError(CameraError):
    """There is nothing more to come: opening again would not help."""

    code = "C4"


class PlanError(BaycueError):
    """A plan is malformed or asks for something unknown."""

    code = "P1"
    exit_code = 4


class PlanFileError(PlanError):
    """A plan file is missing or is no text."""

    code = "P2"


class SceneError(BaycueError):
    """The recording plays, but the golfer cannot be judged from it."""

    code = "S1"
    exit_code = 5


class NobodySeenError(SceneError):
    """Nobody is seen."""

    code = "S2"


class CompanyError(SceneError):
    """A second person stands in the picture."""

    code = "S3"


class FeetCutOffError(SceneError):
    """The golfer's feet are cut off by the picture's edge."""

    code = "S4"


class OtherViewError(SceneError):
    """A swing was filmed from another side, or the other way round, than the plan says."""

    code = "S5"


class OutputError(BaycueError):
    """A result could not be written where the user asked."""

    code = "O1"
    exit_code = 6


class ExistsError(OutputError):
    """There is a file of that name already."""

    code = "O2"


class OtherRunError(OutputError):
    """A folder holds the results of another run."""

    code = "O3"


class NoWindowError(OutputError):
    """There is no display for the big screen."""

    code = "O4"


class NoSoundError(OutputError):
    """There is no loudspeaker, or no microphone."""

    code = "O5"


class KeptError(OutputError):
    """What was asked for has not been kept."""

    code = "K1"


class DamagedKeptError(KeptError):
    """What was kept of a swing or a session cannot be read."""

    code = "K2"


class NewerKeptError(KeptError):
    """What was kept is of a newer version of the program."""

    code = "K3"


class LogError(KeptError):
    """The log is damaged, is not ours, or is held by another program."""

    code = "K4"


class FilmGoneError(KeptError):
    """A swing's film is gone or damaged, or there never was one."""

    code = "K5"


class OutsideError(KeptError):
    """A name or a link leads out of the folder that swings are kept in."""

    code = "K6"


class InUseError(KeptError):
    """Something is going on that must end first."""

    code = "K7"
