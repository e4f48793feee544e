"""A screen nobody sees and a sound card nobody hears, for a while: Xvfb and PulseAudio."""

import os
import shutil
import subprocess
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path

from baycue.cues.tones import RATE_HZ
from baycue.errors import OutputError
from baycue.pose.quiet import native_stderr_silenced
from baycue.sound_library import list_devices_anew

_ALSA = Path("/usr/share/alsa/alsa.conf")
_TRIES, _WAIT_S = 100, 0.1
SINK = "bay"


def missing() -> str | None:
    """What a rehearsal needs and this machine lacks, or None."""
    programs = ("pulseaudio", "parec", "pactl", "Xvfb")
    lacking = [program for program in programs if shutil.which(program) is None]
    if not list(Path("/usr/lib").glob("*/alsa-lib/libasound_module_pcm_pulse.so")):
        lacking.append("the ALSA plug-in for PulseAudio")
    if not lacking:
        return None
    return (
        f"this machine lacks {', '.join(lacking)}; on Debian or Ubuntu: apt-get install "
        "pulseaudio pulseaudio-utils libasound2-plugins xvfb"
    )


@contextmanager
def surroundings() -> Iterator[None]:
    """Both, with this process's environment pointing at them until the end."""
    with ExitStack() as stack:
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="baycue-")))
        env = stack.enter_context(_sound_server(folder))
        display = stack.enter_context(_screen())
        stack.enter_context(_environment(env | {"DISPLAY": display}))
        _look_for_sound_anew()
        yield


def _look_for_sound_anew() -> None:
    """PortAudio lists devices once, when loaded, and MediaPipe has loaded it long ago."""
    with native_stderr_silenced():
        list_devices_anew()


@contextmanager
def _sound_server(folder: Path) -> Iterator[dict[str, str]]:
    env = sound_environment(folder)
    with _process(sound_command(folder), {**os.environ, **env}):
        _wait_until(lambda: has_sink(env), "the sound server")
        yield env


def sound_environment(folder: Path) -> dict[str, str]:
    """What a program needs to find the sound server of a folder."""
    (folder / "asound.conf").write_text("pcm.!default { type pulse }\n")
    return {
        "HOME": str(folder),
        "XDG_RUNTIME_DIR": str(folder),
        "PULSE_SERVER": f"unix:{folder / 'socket'}",
        "ALSA_CONFIG_PATH": f"{_ALSA}:{folder / 'asound.conf'}",
    }


def sound_command(folder: Path) -> list[str]:
    """A PulseAudio of a folder's own with one silent sink."""
    command = ["pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "--use-pid-file=no"]
    command += ["-L", f"module-null-sink sink_name={SINK} rate={RATE_HZ}"]
    socket = folder / "socket"
    return [*command, "-L", f"module-native-protocol-unix auth-anonymous=1 socket={socket}"]


@contextmanager
def _screen() -> Iterator[str]:
    reading, writing = os.pipe()
    command = ["Xvfb", "-displayfd", str(writing), "-screen", "0", "1280x720x24", "-nolisten"]
    try:
        with _process([*command, "tcp"], dict(os.environ), (writing,)):
            number = os.read(reading, 16).decode().strip()
            yield f":{number}"
    finally:
        os.close(reading)
        os.close(writing)


@contextmanager
def _process(command: list[str], env: dict[str, str], keep: tuple[int, ...] = ()) -> Iterator[None]:
    quiet = subprocess.DEVNULL
    process = subprocess.Popen(command, env=env, stdout=quiet, stderr=quiet, pass_fds=keep)
    try:
        yield
    finally:
        process.terminate()
        process.wait(10)


@contextmanager
def _environment(changes: dict[str, str]) -> Iterator[None]:
    before = {name: os.environ.get(name) for name in changes}
    os.environ.update(changes)
    try:
        yield
    finally:
        for name, value in before.items():
            if value is None:
                os.environ.pop(name, None)
            else:
                os.environ[name] = value


def has_sink(env: dict[str, str]) -> bool:
    """Whether the sound server is there with its sink."""
    command = ["pactl", "list", "short", "sinks"]
    found = subprocess.run(command, env={**os.environ, **env}, capture_output=True, check=False)
    return SINK.encode() in found.stdout


def _wait_until(ready: Callable[[], bool], what: str) -> None:
    for _ in range(_TRIES):
        if ready():
            return
        time.sleep(_WAIT_S)
    raise OutputError(f"{what} did not start within {_TRIES * _WAIT_S:.0f} s")
