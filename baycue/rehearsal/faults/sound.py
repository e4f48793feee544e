"""A sound server that is stopped and started, and loses its card."""

import os
import subprocess
import time
from pathlib import Path

from baycue.cues.tones import RATE_HZ
from baycue.errors import OutputError
from baycue.rehearsal.ear import Ear
from baycue.rehearsal.surroundings import SINK, has_sink, sound_command, sound_environment

_STARTS_S, _HEARS_S = 20.0, 10.0


class SoundServer:
    """PulseAudio in a folder of its own; ``env``: what a program needs to find it."""

    def __init__(self, folder: Path) -> None:
        folder.mkdir(exist_ok=True)
        self._folder, self.env = folder, sound_environment(folder)
        self._process: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        """Returns when its silent card is there."""
        env, quiet = {**os.environ, **self.env}, subprocess.DEVNULL
        command = sound_command(self._folder)
        self._process = subprocess.Popen(command, env=env, stdout=quiet, stderr=quiet)
        deadline = time.monotonic() + _STARTS_S
        while not has_sink(self.env):
            if time.monotonic() > deadline:
                raise OutputError("the sound server did not start")
            time.sleep(0.05)

    def stop(self) -> None:
        """Ended, as by a crash: nobody is told before."""
        if self._process:
            self._process.kill()
            self._process.wait()
        self._process = None
        (self._folder / "socket").unlink(missing_ok=True)

    def remove_card(self) -> None:
        """The server stays, its only card goes."""
        self._control("unload-module", "module-null-sink")

    def add_card(self) -> None:
        """The card is back."""
        self._control("load-module", "module-null-sink", f"sink_name={SINK}", f"rate={RATE_HZ}")

    def listen(self) -> Ear | None:
        """An ear that hears; None if nothing, not even silence, comes."""
        ear, deadline = Ear(self.env), time.monotonic() + _HEARS_S
        while not ear.hears:
            if time.monotonic() > deadline:
                ear.stop()
                return None
            time.sleep(0.05)
        return ear

    def _control(self, *words: str) -> None:
        env = {**os.environ, **self.env}
        subprocess.run(["pactl", *words], env=env, capture_output=True, check=True, timeout=20)
