"""PortAudio, loaded once for output and input, and its list of devices made new when it may be.

PortAudio lists devices when it starts and never again, so a card plugged in later is seen only
after a restart of the library, and a restart takes every open stream with it.
"""

import atexit
import threading
from typing import Any

from baycue.errors import NoSoundError

_lock = threading.Lock()
_open_streams = 0


def sound_library() -> Any:
    """The ``sounddevice`` module; OutputError, with the reason, where PortAudio is missing."""
    try:
        import sounddevice
    except OSError as error:
        raise NoSoundError(f"no sound: {error}") from error
    return sounddevice


def count_open(change: int) -> None:
    """Note that a stream was opened (+1) or closed (-1)."""
    global _open_streams
    with _lock:
        _open_streams += change


def list_devices_anew() -> bool:
    """Restart PortAudio so that it sees new devices; False if it was not or could not be.

    Nothing is done while a stream is open; one whose closing hangs counts as open for good.
    """
    with _lock:
        if _open_streams:
            return False
        library = sound_library()
        try:
            if library._initialized:
                library._terminate()
            library._initialize()
        except library.PortAudioError:
            return False
        return True


def leave_without_cleaning_up() -> None:
    """Do not wait for PortAudio at exit: with a stream that does not close it would for ever."""
    atexit.unregister(sound_library()._exit_handler)
