"""Tones written to WAV files, where there is no sound card."""

import wave
from pathlib import Path

import numpy as np

from baycue.cues.tones import Tone
from baycue.errors import ExistsError, OutputError


class WavSpeaker:
    """Writes each tone to a 16-bit WAV file of its own: ``path``, then ``path-2`` and so on."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._count = 0

    @property
    def is_alive(self) -> bool:
        """Nobody hears a file."""
        return False

    def play(self, tone: Tone) -> None:
        """Write the next file; OutputError if it exists or cannot be written."""
        self._count += 1
        write_wav(self._next_path(), tone)

    def close(self) -> None:
        """Nothing is held open."""

    def describe(self) -> str:
        """Where the files go."""
        return f"tones written to {self._path}"

    def _next_path(self) -> Path:
        if self._count == 1:
            return self._path
        return self._path.with_stem(f"{self._path.stem}-{self._count}")


def write_wav(path: Path, tone: Tone) -> None:
    """Write a tone as a 16-bit mono WAV; OutputError rather than overwrite anything."""
    pcm = np.round(tone.samples * 32767).astype("<i2").tobytes()
    try:
        with path.open("xb") as file, wave.open(file, "wb") as wav:
            wav.setnchannels(1)
            wav.setsampwidth(2)
            wav.setframerate(tone.rate_hz)
            wav.writeframes(pcm)
    except FileExistsError as error:
        raise ExistsError(f"{path}: exists already and is not overwritten") from error
    except OSError as error:
        raise OutputError(f"{path}: cannot be written: {error.strerror}") from error
