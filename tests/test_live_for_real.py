"""The live command as a golfer runs it: HTTP camera, real window and keys, real sound server."""

import os
import subprocess
import sys
import time
from pathlib import Path

import numpy as np

from baycue.cues.palette import OUTCOME
from baycue.rehearsal.camera_process import served_clip
from baycue.verdict.verdict import Outcome
from tests.command_line import PLAN, SAMPLE
from tests.sound_server import (
    has_sink,
    needs_portaudio,
    needs_sound_server,
    recording,
    sound_server,
    wait_until,
)
from tests.test_cues_display import environment, needs_xvfb, pixel_shares, virtual_display
from tests.test_cues_live_screen import focus, line_from, xdotool

LIVE = "from baycue.cli import main; main()"


def colours(display: str) -> dict[Outcome, float]:
    """The share of the display in each answer's colour."""
    dump = subprocess.run(
        ["xwd", "-root", "-silent"],
        env=environment(DISPLAY=display),
        capture_output=True,
        check=True,
        timeout=30,
    )
    return pixel_shares(dump.stdout)


def shown(display: str, outcome: Outcome) -> float:
    """The share of that colour once there is any; a window takes a moment to be painted."""
    deadline = time.monotonic() + 10
    while (share := colours(display)[outcome]) < 0.05 and time.monotonic() < deadline:
        time.sleep(0.1)
    return share


def group_lives(group: int) -> bool:
    try:
        os.killpg(group, 0)
    except ProcessLookupError:
        return False
    return True


@needs_portaudio
@needs_sound_server
@needs_xvfb
def test_a_camera_on_the_network_is_answered_by_sound_and_screen_until_q(tmp_path: Path) -> None:
    command = [sys.executable, "-c", LIVE, "live", "--plan", str(PLAN), "--skip-set-up"]
    with (
        virtual_display() as display,
        sound_server(tmp_path / "server") as sound,
        served_clip(SAMPLE) as camera,
    ):
        wait_until(lambda: has_sink(sound))
        env = environment(DISPLAY=display, **sound)
        with recording(tmp_path / "heard.raw", sound):
            live = subprocess.Popen(
                [*command, "--source", camera.url], env=env, stdout=subprocess.PIPE, text=True
            )
            try:
                assert line_from(live.stdout, "window").startswith("window 1280 x 720")
                focus(display)
                told = line_from(live.stdout, "swing 1")
                share = shown(display, Outcome.FAIL)
                xdotool(display, "key", "space")
                xdotool(display, "key", "q")
                assert live.wait(30) == 0
            finally:
                live.kill()
                rest, _ = live.communicate(timeout=30)
    assert told.startswith("swing 1: FAIL")
    assert share > 0.05, OUTCOME[Outcome.FAIL]
    assert "opened 1 time;" in rest
    heard = np.fromfile(tmp_path / "heard.raw", dtype="<f4")
    assert np.abs(heard).max() > 0.05


def test_it_ends_cleanly_on_an_interrupt(tmp_path: Path) -> None:
    """Ctrl-C reaches every process of the terminal; none may be left over, none may complain."""
    command = [sys.executable, "-c", LIVE, "live", "--plan", str(PLAN), "--source"]
    with served_clip(SAMPLE) as camera:
        live = subprocess.Popen(
            [*command, camera.url, "--no-window", "--no-sound", "--skip-set-up"],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            start_new_session=True,
        )
        try:
            wait_until(lambda: len(camera.sent_ns) > 30)
            os.killpg(live.pid, 2)
            told, complaints = live.communicate(timeout=30)
        finally:
            live.kill()
            live.communicate(timeout=30)
    assert "stopped" in told
    assert "frames read" in told
    assert "Traceback" not in complaints
    wait_until(lambda: not group_lives(live.pid))
