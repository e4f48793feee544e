"""The window, really opened where Xvfb is installed, and the picture file."""

import os
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np
import pygame
import pytest

from baycue.cues.display import save_png
from baycue.cues.palette import OUTCOME
from baycue.errors import OutputError
from baycue.verdict.verdict import Outcome

SHOW = """
from baycue.cues.display import open_window
from baycue.cues.screen import draw_verdict
from baycue.measures.measurement import Measurement, Unit
from baycue.plan.target import Target
from baycue.verdict.judge import judge_swing, judge_target

window, why = open_window((1280, 720))
if window is None:
    print(why)
    raise SystemExit
keys = {"measure": "knee past ankle", "at": "P6", "at_least": "5 cm"}
answer = judge_target(
    Target.model_validate(keys), Measurement("knee past ankle", 0.031, 0.009, Unit.METRE)
)
draw_verdict(window.surface, judge_swing(1, [answer]))
window.show()
print(window.describe(), flush=True)
while not window.closed():
    window.show()
window.close()
print("closed")
"""


def environment(**changes: str) -> dict[str, str]:
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("SDL_", "DISPLAY", "WAYLAND"))}
    return kept | changes


def show(**changes: str) -> str:
    result = subprocess.run(
        [sys.executable, "-c", SHOW],
        env=environment(**changes),
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    )
    return result.stdout.splitlines()[-1]


def test_a_dummy_display_is_told_and_no_window_opened() -> None:
    assert show(SDL_VIDEODRIVER="dummy") == 'no window: SDL_VIDEODRIVER is "dummy"'


@pytest.mark.skipif(sys.platform != "linux", reason="other systems always have a display")
def test_no_display_is_told() -> None:
    assert show() == "no window: neither DISPLAY nor WAYLAND_DISPLAY is set"


@pytest.mark.skipif(sys.platform != "linux", reason="names a display the X11 way")
def test_a_display_that_does_not_answer_is_told() -> None:
    assert show(DISPLAY=":99999", SDL_VIDEODRIVER="x11").startswith("no window: ")


needs_xvfb = pytest.mark.skipif(
    any(shutil.which(program) is None for program in ("Xvfb", "xdotool", "xwd")),
    reason="Xvfb, xdotool or xwd is not installed",
)


@contextmanager
def virtual_display() -> Iterator[str]:
    """A display of our own, on a number the server itself finds free."""
    reader, writer = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(writer), "-screen", "0", "1400x800x24", "-nolisten", "tcp"],
        pass_fds=[writer],
        stderr=subprocess.DEVNULL,
    )
    os.close(writer)
    try:
        with os.fdopen(reader) as numbers:
            yield f":{numbers.readline().strip()}"
    finally:
        server.terminate()
        server.wait(10)


def pixel_shares(dump: bytes) -> dict[Outcome, float]:
    """Share of the display's pixels in each answer's colour, from an X window dump.

    The dump's header is 25 big-endian words; 4, 5, 11 and 12 are width, height, bits per pixel
    and bytes per line (X11 XWDFile.h).
    """
    header = np.frombuffer(dump, dtype=">u4", count=25)
    width, height, bits, line = (int(header[i]) for i in (4, 5, 11, 12))
    rows = np.frombuffer(dump[-height * line :], dtype=np.uint8).reshape(height, line)
    blue_first = rows[:, : width * bits // 8].reshape(height, width, bits // 8)[..., :3]
    return {
        outcome: float((blue_first == colour[::-1]).all(axis=2).mean())
        for outcome, colour in OUTCOME.items()
    }


def settled_shares(env: dict[str, str]) -> dict[Outcome, float]:
    """The shares once the display has them; a window takes a moment to be painted."""
    shares: dict[Outcome, float] = {}
    for _ in range(50):
        dump = subprocess.run(
            ["xwd", "-root", "-silent"], env=env, capture_output=True, check=True, timeout=30
        )
        earlier, shares = shares, pixel_shares(dump.stdout)
        if shares == earlier and max(shares.values()) > 0:
            break
        time.sleep(0.1)
    return shares


@needs_xvfb
def test_a_real_window_shows_the_verdict_and_closes_on_escape() -> None:
    with virtual_display() as display:
        env = environment(DISPLAY=display)
        window = subprocess.Popen(
            [sys.executable, "-c", SHOW], env=env, stdout=subprocess.PIPE, text=True
        )
        try:
            assert window.stdout is not None
            told = next(line for line in window.stdout if line.startswith("window"))
            assert told.strip() == "window 1280 x 720 px through x11"
            shares = settled_shares(env)
            subprocess.run(
                ["xdotool", "mousemove", "700", "400", "key", "Escape"],
                env=env,
                check=True,
                timeout=30,
            )
            assert window.stdout.read().strip() == "closed"
        finally:
            window.terminate()
            window.communicate(timeout=30)
    assert shares[Outcome.FAIL] > 0.15
    assert shares[Outcome.PASS] == 0


class TestPictureFile:
    def test_it_holds_the_surface(self, tmp_path: Path) -> None:
        surface = pygame.Surface((40, 20))
        surface.fill((10, 20, 30))
        save_png(surface, tmp_path / "screen.png")
        back = pygame.image.load(tmp_path / "screen.png")
        assert back.get_size() == (40, 20)
        assert back.get_at((39, 19))[:3] == (10, 20, 30)

    def test_nothing_is_overwritten(self, tmp_path: Path) -> None:
        path = tmp_path / "screen.png"
        path.write_bytes(b"mine")
        with pytest.raises(OutputError, match="not overwritten"):
            save_png(pygame.Surface((4, 4)), path)
        assert path.read_bytes() == b"mine"

    def test_a_missing_folder_is_told(self, tmp_path: Path) -> None:
        with pytest.raises(OutputError, match="cannot be written"):
            save_png(pygame.Surface((4, 4)), tmp_path / "none" / "screen.png")
