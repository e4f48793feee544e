"""Tones through the sound card, also through its loss and return."""

import threading
import time
from dataclasses import dataclass

import numpy as np

from baycue.cues.guide_tone import GuideTone, GuideVoice
from baycue.cues.playback import Cue, Playback
from baycue.cues.reconnect import Keeper, finishes
from baycue.cues.sound_device import SoundChoice
from baycue.cues.sound_stream import BlockTime, OpenOutput, OutputStream, PortAudioStream
from baycue.cues.tones import RATE_HZ, Samples, Tone
from baycue.errors import NoSoundError, OutputError
from baycue.sound_library import leave_without_cleaning_up, list_devices_anew

_DEAD_AFTER_NS = 1_000_000_000
_WAKING_NS = 4_000_000_000
"""A sound server that slept takes its first blocks, then none for a second or two."""
_LONGEST_TONE_S = 3.0


@dataclass(frozen=True, slots=True)
class ToneOnset:
    """When a tone began, on the monotonic clock.

    ``asked_ns``: ``play`` was called.  ``submitted_ns``: its first sample was handed to the
    driver.  ``sounds_ns``: when that sample sounds, by the driver's own estimate; nothing
    was measured.
    """

    asked_ns: int
    submitted_ns: int
    sounds_ns: int

    @property
    def software_s(self) -> float:
        """From the asking to the driver, s."""
        return (self.submitted_ns - self.asked_ns) * 1e-9

    @property
    def estimated_output_s(self) -> float:
        """From the driver to the ear's side of the card, s, by the driver's estimate."""
        return (self.sounds_ns - self.submitted_ns) * 1e-9


class SoundCardSpeaker:
    """One output stream, open from the start and fed silence, so that no first tone is late.

    If the device is lost, ``play`` says so at once and a thread of its own opens the stream
    again when it can.  Raises OutputError if there is no sound library or no usable device,
    unless ``patient``: then it goes on trying.
    """

    def __init__(
        self,
        choice: SoundChoice | None = None,
        open_output: OpenOutput = PortAudioStream,
        patient: bool = False,
    ) -> None:
        self._choice = choice or SoundChoice()
        self._open_output = open_output
        self._playback = Playback(RATE_HZ)
        self._guide = GuideTone(RATE_HZ, self._choice.volume)
        self._stream: OutputStream | None = None
        self._why_lost = "no sound: not open yet"
        self._beat_ns = self._opened_ns = self._stream_behind_ns = self._asked_ns = 0
        self._underruns = self._reconnections = 0
        self._onset: ToneOnset | None = None
        self._hangs = False
        self._opening = threading.Lock()
        if not self._opened() and not patient:
            raise NoSoundError(self._why_lost)
        self._keeper = Keeper(lambda: self.is_alive, self._reopen)

    @property
    def is_alive(self) -> bool:
        """Whether the sound card still asks for samples."""
        silent_ns = time.monotonic_ns() - max(self._beat_ns, self._opened_ns + _WAKING_NS)
        return self._stream is not None and silent_ns < _DEAD_AFTER_NS

    @property
    def heartbeat_ns(self) -> int:
        """When the sound card last asked for samples, on the monotonic clock."""
        return self._beat_ns

    @property
    def latency_s(self) -> float | None:
        """Output latency as the driver estimates it; None while there is no device."""
        return self._stream.latency_s if self._stream else None

    @property
    def last_onset(self) -> ToneOnset | None:
        """When the last tone began, once its first sample went to the driver."""
        return self._onset

    @property
    def reconnections(self) -> int:
        """How often a lost device came back."""
        return self._reconnections

    def play(self, tone: Tone) -> None:
        """Start a tone and return at once; OutputError, at once too, while there is no device."""
        stream = self._stream
        if stream is None or not self.is_alive:
            raise NoSoundError(self._lost())
        self._asked_ns = time.monotonic_ns()
        due_s = (self._asked_ns - self._stream_behind_ns) * 1e-9 + stream.latency_s
        self._playback.ask(Cue(_at_volume(tone.samples, self._choice.volume), due_s))

    def guide(self, voice: GuideVoice | None) -> None:
        """Hold a guide tone from now on, or none; a lost device takes it up again when back."""
        self._guide.voice = voice

    def close(self) -> None:
        """Wait for the tone that sounds, then close the stream; never waits for a dead device."""
        self.guide(None)
        until = time.monotonic() + _LONGEST_TONE_S
        while self._playback.busy and self.is_alive and time.monotonic() < until:
            time.sleep(0.01)
        if self._stream:
            time.sleep(min(self._stream.latency_s, 0.5))
        self._keeper.stop()
        with self._opening:
            self._let_go()

    def describe(self) -> str:
        """Device, rate and latency as the driver estimates it, and the gaps so far."""
        stream = self._stream
        if stream is None or not self.is_alive:
            return self._lost()
        return (
            f"{stream.device_name}, {stream.rate_hz:.0f} Hz, "
            f"output latency {1000 * stream.latency_s:.0f} ms by the driver's estimate, "
            f"{self._underruns} underruns"
        )

    def _lost(self) -> str:
        if self._stream is not None:
            return f"no sound: {self._stream.device_name} stopped answering; trying again"
        return f"{self._why_lost}; trying again"

    def _opened(self) -> bool:
        self._playback = Playback(RATE_HZ)
        try:
            self._stream = self._open_output(self._choice.device, self._fill)
        except OutputError as error:
            self._why_lost = str(error)
            return False
        self._opened_ns = time.monotonic_ns()
        return True

    def _reopen(self) -> bool:
        with self._opening:
            had_one = self._stream is not None
            self._let_go()
            if not had_one:
                list_devices_anew()
            worked = self._opened()
        self._reconnections += worked
        return worked

    def _let_go(self) -> None:
        stream, self._stream = self._stream, None
        if stream is None:
            return
        self._why_lost = f"no sound: {stream.device_name} is gone"
        if not finishes(stream.close) and not self._hangs:
            self._hangs = True
            leave_without_cleaning_up()

    def _fill(self, block: Samples, when: BlockTime) -> None:
        """The callback: silence, or the part of a tone that is due."""
        now_ns = time.monotonic_ns()
        self._beat_ns = now_ns
        self._stream_behind_ns = now_ns - round(when.called_s * 1e9)
        self._underruns += when.underflow
        first = self._playback.fill(block, when.sounds_s)
        self._guide.add_to(block)
        if first is not None:
            self._onset = self._onset_at(now_ns, first, when)

    def _onset_at(self, now_ns: int, first: int, when: BlockTime) -> ToneOnset:
        ahead_s = when.sounds_s - when.called_s
        if when.sounds_s <= 0 or ahead_s < 0:  # the driver does not tell
            ahead_s = self.latency_s or 0.0
        sounds_ns = now_ns + round((ahead_s + first / RATE_HZ) * 1e9)
        return ToneOnset(self._asked_ns, now_ns, sounds_ns)


def _at_volume(samples: Samples, volume: float) -> Samples:
    return samples if volume == 1 else (samples * np.float32(volume)).astype(np.float32)
