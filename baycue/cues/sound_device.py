"""Which sound device, and how loud."""

import difflib
from collections.abc import Sequence
from dataclasses import dataclass

from baycue.errors import NoSoundError


@dataclass(frozen=True, slots=True)
class SoundDevice:
    """One device as the sound library lists it; ``channels``: of the direction asked for."""

    index: int
    name: str
    channels: int


@dataclass(frozen=True, slots=True)
class SoundChoice:
    """What the user asked for.

    ``device``: an index, a name or a part of one; None is the system's own choice.
    ``volume``: 0 to 1, a factor on the samples; the tones' loudness is right among themselves.
    """

    device: int | str | None = None
    volume: float = 1.0

    def __post_init__(self) -> None:
        if not 0 <= self.volume <= 1:
            raise NoSoundError(f"volume {self.volume:g}: give a number from 0 to 1")


def find_device(
    devices: Sequence[SoundDevice], wanted: int | str | None, kind: str
) -> SoundDevice | None:
    """The wanted one of the devices that have channels; None for the system's own choice.

    A name may be a part, in any case; the whole name wins over parts.  ``kind``: "output" or
    "input", for the text.  OutputError names what there is.
    """
    if wanted is None:
        return None
    usable = [device for device in devices if device.channels > 0]
    if isinstance(wanted, int) or wanted.isdecimal():
        found = [device for device in usable if device.index == int(wanted)]
    else:
        found = [d for d in usable if d.name.lower() == wanted.lower()]
        found = found or [d for d in usable if wanted.lower() in d.name.lower()]
    if found:
        return found[0]
    raise NoSoundError(_unknown(usable, wanted, kind))


def _unknown(usable: Sequence[SoundDevice], wanted: int | str, kind: str) -> str:
    if not usable:
        return f'no sound: there is no {kind} device, so none called "{wanted}"'
    near = difflib.get_close_matches(str(wanted), [d.name for d in usable], 1)
    guess = f'; did you mean "{near[0]}"?' if near else ""
    have = ", ".join(f"{d.index} {d.name}" for d in usable)
    return f'no sound: no {kind} device "{wanted}"{guess} There are: {have}'
