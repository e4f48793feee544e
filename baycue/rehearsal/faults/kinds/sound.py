"""The sound server and its card."""

import time
from collections.abc import Callable

from baycue.rehearsal.faults.bay import Bay, BaySettings
from baycue.rehearsal.faults.fault import Fault, nothing

_TONE_S = 1.5
_LOST, _BACK = "no sound", "sound again"
_WITH_SOUND = BaySettings(sound=True)


def _tone_is_heard(bay: Bay) -> str:
    """Record the card while one more verdict is told."""
    ear = bay.sound.listen()
    if ear is None:
        return "the sound card cannot be listened to"
    since = len(bay.live.lines)
    line = bay.verdict(since)
    time.sleep(_TONE_S)
    ear.stop()
    if line is None:
        return "no verdict while the sound card was listened to"
    return "" if ear.onsets_ns() else "no tone was heard afterwards"


def _play_on(bay: Bay) -> None:
    """Swing without sound."""
    bay.verdict()


def _sound(name: str, done: str, do: Callable[[Bay], None], undo: Callable[[Bay], None]) -> Fault:
    return Fault(name, done, do, undo, _LOST, _BACK, _WITH_SOUND, after=_tone_is_heard)


FAULTS = (
    _sound(
        "sound-server-killed",
        "the sound server is killed, and started again once that is told",
        lambda bay: bay.sound.stop(),
        lambda bay: bay.sound.start(),
    ),
    Fault(
        "sound-card-removed",
        "the server's only card is taken away, and put back",
        lambda bay: bay.sound.remove_card(),
        lambda bay: bay.sound.add_card(),
        settings=_WITH_SOUND,
        after=_tone_is_heard,
    ),
    Fault(
        "sound-not-there-yet",
        "no sound server at the start; started as soon as that is told, before the session watches",
        nothing,
        lambda bay: bay.sound.start(),
        _LOST,
        _BACK,
        BaySettings(sound=True, sound_on=False),
        after=_tone_is_heard,
        from_the_start=True,
    ),
    Fault(
        "sound-comes-late",
        "no sound server at the start; started after the first swing",
        _play_on,
        lambda bay: bay.sound.start(),
        _LOST,
        _BACK,
        BaySettings(sound=True, sound_on=False),
        after=_tone_is_heard,
        from_the_start=True,
    ),
)
