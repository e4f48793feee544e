"""The microphone, listening to a real sound server's own sink."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from baycue.cues.tones import RATE_HZ
from tests.sound_server import (
    has_sink,
    needs_portaudio,
    needs_sound_server,
    sound_server,
    wait_until,
)
from tests.test_ear_strike import click, noise

HEAR = """
import sys, time
from baycue.ear.impact import Hearing
from baycue.ear.microphone import Microphone, listen_for
from baycue.ear.strike import strike_in
microphone = Microphone()
until = time.monotonic() + 20
while microphone.last(1.0).samples.size < 30000 and time.monotonic() < until:
    time.sleep(0.05)
print("hears", microphone.is_alive, flush=True)
sys.stdin.readline()
sound = microphone.last(5.0)
end_s = len(sound.samples) / sound.rate_hz
first = strike_in(sound.samples, sound.rate_hz, (0.2, end_s - 0.1))
around = first.time_s
before = strike_in(sound.samples, sound.rate_hz, (0.1, around - 0.3))
after = strike_in(sound.samples, sound.rate_hz, (around + 0.3, end_s - 0.1))
other = before or after
print("gap", abs(other.time_s - around), flush=True)
at_ns = sound.first_ns + round((around - Hearing().travel_s) * 1e9)
for offset_ms in (10, 400, -60_000):
    seen_ns = at_ns + offset_ms * 1_000_000
    impact = listen_for(sound, Hearing(), seen_ns, 10_000_000)
    print("struck", impact.struck.value, (impact.time_ns - at_ns) / 1e6, flush=True)
microphone.close()
"""


@needs_portaudio
@needs_sound_server
@pytest.mark.skipif(shutil.which("pacat") is None, reason="pacat is not installed")
def test_clicks_through_a_sound_server_are_heard_and_timed(tmp_path: Path) -> None:
    sound = click(0.5, 0.6) + click(1.3, 0.5, 6) + noise("pink", 0.005, 1)
    (tmp_path / "clicks.raw").write_bytes(sound.astype("<f4").tobytes())
    play = ["pacat", "--playback", "--raw", "--format=float32le", "--channels=1"]
    play += [f"--rate={RATE_HZ}", "--device=bay", str(tmp_path / "clicks.raw")]
    with sound_server(tmp_path / "server") as env:
        wait_until(lambda: has_sink(env))
        both = {**os.environ, **env}
        ear = subprocess.Popen(
            [sys.executable, "-c", HEAR],
            env=both,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )
        try:
            assert ear.stdout is not None
            assert ear.stdout.readline().strip() == "hears True"
            subprocess.run(play, env=both, check=True, timeout=60)
            told, _ = ear.communicate("now\n", timeout=60)
        finally:
            ear.kill()
    gap, *struck = told.splitlines()
    assert float(gap.split()[1]) == pytest.approx(0.8, abs=0.003)
    kinds = [line.rsplit(" ", 1)[0].removeprefix("struck ") for line in struck]
    assert kinds == ["ball", "practice swing", "unknown"]
    off_ms = float(struck[0].rsplit(" ", 1)[1])
    assert np.abs(off_ms) < 5
