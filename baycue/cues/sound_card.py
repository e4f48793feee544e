"""Tones through the sound card."""

import time
from typing import Any

from baycue.cues.playback import Cue, Playback
from baycue.cues.tones import RATE_HZ, Tone
from baycue.errors import OutputError

_DEAD_AFTER_S = 1.0


class SoundCardSpeaker:
    """One output stream, open from the start and fed silence, so that no first tone is late.

    Raises OutputError, with the reason, if there is no sound library or no usable device.
    """

    def __init__(self) -> None:
        self._playback = Playback(RATE_HZ)
        self._beat_s = time.monotonic()
        self._underruns = 0
        self._stream = self._open()

    def play(self, tone: Tone) -> None:
        """Start a tone; a stream found dead is opened anew once, else OutputError."""
        if not self.is_alive:
            self._reopen()
        latency_s = float(self._stream.latency)
        self._playback.ask(Cue(tone.samples, self._stream.time + latency_s))

    @property
    def is_alive(self) -> bool:
        """Whether the sound card still asks for samples."""
        return bool(self._stream.active) and time.monotonic() - self._beat_s < _DEAD_AFTER_S

    @property
    def latency_s(self) -> float | None:
        """Output latency as the driver estimates it."""
        return float(self._stream.latency)

    def close(self) -> None:
        """Wait for the tone that sounds, then close the stream."""
        while self._playback.busy and self.is_alive:
            time.sleep(0.01)
        self._stream.stop()
        self._stream.close()

    def describe(self) -> str:
        """Device, rate and latency as the driver estimates it, and the gaps so far."""
        latency_ms = 1000 * float(self._stream.latency)
        return (
            f"{self._device_name}, {self._stream.samplerate:.0f} Hz, "
            f"output latency {latency_ms:.0f} ms by the driver's estimate, "
            f"{self._underruns} underruns"
        )

    def _open(self) -> Any:
        try:
            import sounddevice
        except OSError as error:
            raise OutputError(f"no sound: {error}") from error
        try:
            stream = sounddevice.OutputStream(
                samplerate=RATE_HZ,
                channels=1,
                dtype="float32",
                latency="low",
                callback=self._callback,
            )
            stream.start()
            self._device_name = sounddevice.query_devices(stream.device)["name"]
        except (sounddevice.PortAudioError, ValueError) as error:
            raise OutputError(f"no sound: {' '.join(str(error).split())}") from error
        self._beat_s = time.monotonic()
        return stream

    def _reopen(self) -> None:
        self._stream.abort()
        self._stream.close()
        self._playback = Playback(RATE_HZ)
        self._stream = self._open()

    def _callback(self, block: Any, _frames: int, when: Any, status: Any) -> None:
        self._beat_s = time.monotonic()
        self._underruns += bool(status.output_underflow)
        self._playback.fill(block, when.outputBufferDacTime)
