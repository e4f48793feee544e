"""The live window, really opened where Xvfb is installed: keys, sizes, and idle turns."""

import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from tests.sound_server import wait_until
from tests.test_cues_display import environment, needs_xvfb, virtual_display

# SIGTERM ends it in order: a window outlives a program that dies, to say so, and holds its output.
LOOP = """
import signal, sys, time
signal.signal(signal.SIGTERM, lambda number, frame: sys.exit())
from baycue.cues.keys import Key
from baycue.cues.live_screen import LiveScreen
from baycue.errors import OutputError
from baycue.live.view import LiveView, Stage
try:
    screen = LiveScreen(display=int(sys.argv[1]), full_screen=sys.argv[2] == "full")
except OutputError as error:
    print(error)
    raise SystemExit
print(screen.describe(), flush=True)
told, stage, until, asked = screen.describe(), Stage.WAITING, time.monotonic() + 60, ()
while time.monotonic() < until and Key.QUIT not in asked:
    screen.show(LiveView(stage))
    asked = screen.keys()
    for key in asked:
        print(key.name, flush=True)
        stage = Stage.PAUSED if key is Key.PAUSE else stage
    if screen.describe() != told:
        told = screen.describe()
        print(told, flush=True)
    time.sleep(1 / 60)
screen.show(LiveView(stage))
print("drawn", screen.frames_drawn)
screen.close()
"""


@contextmanager
def live(display: str, number: str = "0", how: str = "window") -> Iterator[subprocess.Popen[str]]:
    loop = subprocess.Popen(
        [sys.executable, "-c", LOOP, number, how],
        env=environment(DISPLAY=display),
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        yield loop
    finally:
        loop.terminate()
        loop.communicate(timeout=30)


def line_from(output: IO[str] | None, start: str) -> str:
    assert output is not None
    return next(line.strip() for line in output if line.startswith(start))


def xdotool(display: str, *words: str) -> None:
    env = environment(DISPLAY=display)
    subprocess.run(["xdotool", *words], env=env, check=True, timeout=30, capture_output=True)


def focus(display: str) -> str:
    """The window below the pointer, to which keys go where there is no window manager."""
    env = environment(DISPLAY=display)
    point = ["xdotool", "mousemove", "300", "300", "getmouselocation", "--shell"]

    def below() -> str:
        told = subprocess.run(
            point, env=env, check=True, timeout=30, capture_output=True, text=True
        )
        return told.stdout.split("WINDOW=")[1].strip()

    # X11 numbers the clients' windows from 0x200000 on, and its own root window below.
    wait_until(lambda: int(below()) >= 0x200000)
    time.sleep(0.3)
    return below()


@needs_xvfb
def test_keys_reach_the_loop_and_idle_turns_draw_nothing() -> None:
    with virtual_display() as display, live(display) as loop:
        assert line_from(loop.stdout, "window") == "window 1280 x 720 px through x11"
        focus(display)
        for key, name in [("space", "PAUSE"), ("r", "REPLAY"), ("a", "ANSWER"), ("s", "SOUND")]:
            xdotool(display, "key", key)
            assert line_from(loop.stdout, name)
        time.sleep(1.0)
        xdotool(display, "key", "Escape")
        assert line_from(loop.stdout, "QUIT")
        drawn = int(line_from(loop.stdout, "drawn").split()[1])
    assert 2 <= drawn <= 8, "a second of idle turns alone has 60"


@needs_xvfb
def test_a_resized_window_is_drawn_anew() -> None:
    with virtual_display() as display, live(display) as loop:
        line_from(loop.stdout, "window")
        window = focus(display)
        xdotool(display, "windowsize", window, "900", "600")
        assert line_from(loop.stdout, "window").startswith("window 900 x 600 px")
        xdotool(display, "key", "q")
        assert line_from(loop.stdout, "QUIT")


@needs_xvfb
def test_full_screen_fills_the_display_and_f_leaves_it() -> None:
    with virtual_display() as display, live(display, how="full") as loop:
        assert line_from(loop.stdout, "window").startswith("window 1400 x 800 px")
        focus(display)
        xdotool(display, "key", "f")
        assert line_from(loop.stdout, "window").startswith("window 1280 x 720 px")
        xdotool(display, "key", "q")
        assert line_from(loop.stdout, "QUIT")


@needs_xvfb
def test_a_display_that_is_not_there_is_told() -> None:
    with virtual_display() as display, live(display, "3") as loop:
        told = line_from(loop.stdout, "no window")
    assert told == "no window: there is no display 3; this machine has only display 0"


@contextmanager
def replayed(display: str, out: Path) -> Iterator[subprocess.Popen[str]]:
    loop = subprocess.Popen(
        [sys.executable, "-m", "tests.replayed_live", str(out)],
        env=environment(DISPLAY=display),
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        yield loop
    finally:
        loop.terminate()
        loop.communicate(timeout=30)


@needs_xvfb
def test_the_replay_heeds_mouse_page_keys_and_exports(tmp_path: Path) -> None:
    with virtual_display() as display, replayed(display, tmp_path) as loop:
        line_from(loop.stdout, "plays")
        focus(display)
        xdotool(display, "key", "Right")
        number = int(line_from(loop.stdout, "stands").split()[2])
        xdotool(display, "mousemove", "300", "300", "click", "5")
        at = f"stands at {number + 1}"
        assert line_from(loop.stdout, at)
        xdotool(display, "key", "Next")
        assert line_from(loop.stdout, f"{at} monday, swing 3, pass (1 of 1) side by side")
        xdotool(display, "key", "g", "t")
        assert line_from(loop.stdout, at).endswith("ghost")
        assert line_from(loop.stdout, "written to").endswith("swing_001-1.png")
        xdotool(display, "key", "Escape")
        assert loop.wait(30) == 0
