"""The microphone: a stream into a ring, and the strike that belongs to an impact seen."""

import time
from typing import Any

from baycue.cues.sound_device import find_device
from baycue.cues.sound_stream import input_devices
from baycue.ear.impact import (
    HeardStrike,
    Hearing,
    Impact,
    arrival_window_s,
    heard_strike,
    impact_from,
    window_ns,
)
from baycue.ear.ring import Sound, SoundRing
from baycue.ear.strike import strike_in
from baycue.errors import NoSoundError
from baycue.sound_library import count_open, sound_library

RATE_HZ = 48_000
_DEAD_AFTER_NS = 1_000_000_000
_LISTEN_S = 2.0


class Microphone:
    """An input stream that is always open; OutputError, with the reason, if there is none."""

    def __init__(self, device: int | str | None = None, distance_m: float = 2.0) -> None:
        library = sound_library()
        chosen = find_device(input_devices(), device, "input")
        self._ring = SoundRing(RATE_HZ)
        self._beat_ns = time.monotonic_ns()
        try:
            self._stream = library.InputStream(
                samplerate=RATE_HZ,
                channels=1,
                dtype="float32",
                latency="low",
                callback=self._callback,
                device=chosen.index if chosen else None,
            )
            self._stream.start()
        except (library.PortAudioError, ValueError) as error:
            raise NoSoundError(f"no microphone: {' '.join(str(error).split())}") from error
        self.hearing = Hearing(distance_m, float(self._stream.latency))
        count_open(1)

    @property
    def is_alive(self) -> bool:
        """Whether sound still comes."""
        return time.monotonic_ns() - self._beat_ns < _DEAD_AFTER_NS

    def last(self, seconds: float = _LISTEN_S) -> Sound:
        """The newest sound."""
        return self._ring.last(seconds)

    def close(self) -> None:
        """Let go of the device; with one that is gone this may never return."""
        self._stream.stop()
        self._stream.close()
        count_open(-1)

    def _callback(self, block: Any, _frames: int, _when: Any, _status: Any) -> None:
        self._beat_ns = time.monotonic_ns()
        self._ring.write(block[:, 0], self._beat_ns)


def listen_for(sound: Sound | None, hearing: Hearing, seen_ns: int, seen_sigma_ns: int) -> Impact:
    """The impact by eye and, if the sound covers the time about it, by ear.

    ``sound``: None without a microphone.
    """
    if sound is None or not len(sound.samples):
        return impact_from(seen_ns, seen_sigma_ns, None, listening=False)
    window = window_ns(seen_ns, seen_sigma_ns)
    low, high = arrival_window_s(window, sound.first_ns, hearing)
    if low < 0 or high > len(sound.samples) / sound.rate_hz:
        return impact_from(seen_ns, seen_sigma_ns, None, listening=False)
    strike = strike_in(sound.samples, sound.rate_hz, (low, high))
    heard: HeardStrike | None = None
    if strike is not None:
        heard = heard_strike(strike, sound.first_ns, hearing)
    return impact_from(seen_ns, seen_sigma_ns, heard, listening=True)
