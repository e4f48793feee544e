"""Every error a user can cause or meet.

    BaycueError             base; its text is one clear line: what, where, what to do
    +-- RecordingError      a recording cannot be read or is not usable
    |   +-- CameraError     a camera cannot be opened, or went away
    +-- PlanError           a plan file is wrong
    +-- SceneError          the picture does not show what the job needs
    +-- OutputError         a result cannot be written (nothing is ever overwritten)
    |   +-- KeptError       what was kept is damaged, or of a newer version

The command line prints the text and exits with ``exit_code``; no traceback.
"""


class BaycueError(Exception):
    """Base of all errors with a message meant for the user."""

    exit_code = 2


class RecordingError(BaycueError):
    """A recording is missing, not a video, empty, damaged or too slow."""

    exit_code = 3


class CameraError(RecordingError):
    """A camera cannot be opened, went away or gives no usable pictures."""


class PlanError(BaycueError):
    """A plan file is missing, malformed or asks for something unknown."""

    exit_code = 4


class SceneError(BaycueError):
    """The recording plays, but the golfer cannot be judged from it."""

    exit_code = 5


class OutputError(BaycueError):
    """A result could not be written where the user asked."""

    exit_code = 6


class KeptError(OutputError):
    """What was kept of a swing or in the log cannot be read."""
