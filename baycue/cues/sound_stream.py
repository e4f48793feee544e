"""The seam to the sound card: one output stream that asks for samples, block after block."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Protocol

from baycue.cues.sound_device import SoundDevice, find_device
from baycue.cues.tones import RATE_HZ, Samples
from baycue.errors import NoSoundError
from baycue.sound_library import count_open, sound_library

_LATENCY_S = 0.06
"""Asked of the driver.  With its own "low", 9 ms through PulseAudio, a machine whose cores are all
busy came too late again and again and shredded the tone."""


@dataclass(frozen=True, slots=True)
class BlockTime:
    """On the stream's own clock, s: when the callback was called, and when the block sounds."""

    called_s: float
    sounds_s: float
    underflow: bool = False


Fill = Callable[[Samples, BlockTime], None]
"""Writes a block of (n, 1) samples; called by the sound card's own thread."""


class OutputStream(Protocol):
    """A running stream; ``latency_s`` is the driver's estimate."""

    device_name: str
    rate_hz: float
    latency_s: float

    def close(self) -> None:
        """Let go of the device; with a device that is gone this may never return."""


OpenOutput = Callable[[int | str | None, Fill], OutputStream]


class PortAudioStream:
    """An output stream through PortAudio.

    Raises OutputError, with the reason, if there is no sound library or no usable device.
    """

    def __init__(self, device: int | str | None, fill: Fill) -> None:
        library = sound_library()
        chosen = find_device(output_devices(), device, "output")
        self._fill = fill
        try:
            self._stream = library.OutputStream(
                samplerate=RATE_HZ,
                channels=1,
                dtype="float32",
                latency=_LATENCY_S,
                callback=self._callback,
                device=chosen.index if chosen else None,
            )
            self._stream.start()
            self.device_name = str(library.query_devices(self._stream.device)["name"])
        except (library.PortAudioError, ValueError) as error:
            raise NoSoundError(f"no sound: {' '.join(str(error).split())}") from error
        self.rate_hz = float(self._stream.samplerate)
        self.latency_s = float(self._stream.latency)
        count_open(1)

    def close(self) -> None:
        """Let go of the device."""
        self._stream.stop()
        self._stream.close()
        count_open(-1)

    def _callback(self, block: Any, _frames: int, when: Any, status: Any) -> None:
        underflow = bool(status.output_underflow)
        self._fill(block, BlockTime(when.currentTime, when.outputBufferDacTime, underflow))


def output_devices() -> list[SoundDevice]:
    """Every device with its output channels; OutputError where PortAudio is missing."""
    return _devices("max_output_channels")


def input_devices() -> list[SoundDevice]:
    """Every device with its input channels; OutputError where PortAudio is missing."""
    return _devices("max_input_channels")


def _devices(channels: str) -> list[SoundDevice]:
    library = sound_library()
    try:
        listed = library.query_devices()
    except library.PortAudioError as error:
        raise NoSoundError(f"no sound: {' '.join(str(error).split())}") from error
    return [SoundDevice(int(d["index"]), str(d["name"]), int(d[channels])) for d in listed]
