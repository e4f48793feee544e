"""A PulseAudio of our own with one silent sink: a sound card for tests, and its ear."""

import os
import shutil
import subprocess
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from ctypes.util import find_library
from pathlib import Path

import pytest

from baycue.cues.tones import RATE_HZ

needs_portaudio = pytest.mark.skipif(
    find_library("portaudio") is None, reason="the PortAudio library is not installed"
)


SOUND_SERVER = ("pulseaudio", "parec", "pactl")
needs_sound_server = pytest.mark.skipif(
    any(shutil.which(program) is None for program in SOUND_SERVER)
    or not Path("/usr/share/alsa/alsa.conf.d").exists()
    or not list(Path("/usr/lib").glob("*/alsa-lib/libasound_module_pcm_pulse.so")),
    reason="PulseAudio, its tools or its ALSA plug-in are not installed",
)


@contextmanager
def sound_server(folder: Path) -> Iterator[dict[str, str]]:
    """A PulseAudio of our own with one silent sink, and the environment that reaches it."""
    folder.mkdir(exist_ok=True)
    socket = folder / "socket"
    (folder / "asound.conf").write_text("pcm.!default { type pulse }\n")
    private = {"HOME": str(folder), "XDG_RUNTIME_DIR": str(folder)}
    command = ["pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "--use-pid-file=no"]
    command += ["-L", f"module-null-sink sink_name=bay rate={RATE_HZ}"]
    command += ["-L", f"module-native-protocol-unix auth-anonymous=1 socket={socket}"]
    with (folder / "log").open("wb") as log:
        server = subprocess.Popen(command, env={**os.environ, **private}, stdout=log, stderr=log)
    try:
        yield private | {
            "PULSE_SERVER": f"unix:{socket}",
            "ALSA_CONFIG_PATH": f"/usr/share/alsa/alsa.conf:{folder / 'asound.conf'}",
        }
    finally:
        server.terminate()
        server.wait(10)


@contextmanager
def recording(path: Path, env: dict[str, str]) -> Iterator[None]:
    """Record the sink's monitor to a raw file of 32-bit floats, already running on entry."""
    record = ["parec", "-d", "bay.monitor", "--raw", "--format=float32le", "--channels=1"]
    record += [f"--rate={RATE_HZ}", "--latency-msec=20"]
    with path.open("wb") as file:
        recorder = subprocess.Popen(record, env={**os.environ, **env}, stdout=file)
        try:
            wait_until(lambda: path.stat().st_size > 0)
            yield
            time.sleep(0.5)
        finally:
            recorder.terminate()
            recorder.wait(10)


def wait_until(ready: Callable[[], bool]) -> None:
    for _ in range(100):
        if ready():
            return
        time.sleep(0.1)
    raise AssertionError("waited ten seconds in vain")


def has_sink(env: dict[str, str]) -> bool:
    probe = ["pactl", "list", "short", "sinks"]
    found = subprocess.run(probe, env={**os.environ, **env}, capture_output=True)
    return b"bay" in found.stdout
