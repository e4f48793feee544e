"""A display that is killed and started again, and what stands on it."""

import os
import subprocess
import time
from collections.abc import Callable

import cv2
import numpy as np
import pygame
from numpy.typing import NDArray

from baycue.cues.live_page import draw_live
from baycue.cues.live_words import live_page
from baycue.live.view import Health, LiveView, Stage

SIZE_PX = (1280, 720)
_HEADLINE = 0.35
"""The share of the height in which a page of large words has nothing but its headline."""
_COMES_S = 5.0
_SAME, _SAME_COLOUR = 0.98, 8


class Display:
    """An Xvfb, ``name`` as in DISPLAY."""

    def __init__(self) -> None:
        self.name = ""
        self._process: subprocess.Popen[bytes] | None = None

    @property
    def env(self) -> dict[str, str]:
        """What a program needs to find it."""
        return {"DISPLAY": self.name, "SDL_VIDEODRIVER": "x11"}

    def start(self) -> None:
        """Under the name that it had, the first time under a free one; returns when it is up."""
        reading, writing = os.pipe()
        size = f"{SIZE_PX[0]}x{SIZE_PX[1]}x24"
        command = ["Xvfb", *([self.name] if self.name else []), "-displayfd", str(writing)]
        command += ["-screen", "0", size, "-nolisten", "tcp"]
        quiet = subprocess.DEVNULL
        try:
            self._process = subprocess.Popen(
                command, stdout=quiet, stderr=quiet, pass_fds=(writing,)
            )
        finally:
            os.close(writing)
            # To its end: a number and its line feed come by themselves.
            with os.fdopen(reading) as told:
                self.name = f":{told.readline().strip()}"

    def kill(self) -> None:
        """Gone, with all its windows."""
        if self._process:
            self._process.kill()
            self._process.wait()
        self._process = None

    def do(self, *words: str) -> str:
        """What xdotool says to some words."""
        env = {**os.environ, **self.env}
        done = subprocess.run(
            ["xdotool", *words], env=env, capture_output=True, text=True, check=False, timeout=20
        )
        return done.stdout.strip()

    def window(self) -> str:
        """The window below the pointer; where nobody manages windows keys go there too."""
        told = self.do("mousemove", "300", "300", "getmouselocation", "--shell")
        return told.partition("WINDOW=")[2].strip()

    def picture(self) -> NDArray[np.uint8]:
        """A picture of it, BGR; of no size if it cannot be had."""
        dump = subprocess.run(
            ["xwd", "-root", "-silent", "-display", self.name],
            capture_output=True,
            check=False,
            timeout=20,
        )
        return _picture_of(dump.stdout)

    def shows(self, stage: Stage) -> bool:
        """Whether the large words of a stage stand on it, pixel by pixel."""
        return same_headline(self.picture(), page_of(stage))

    def comes_to_show(self, stage: Stage) -> bool:
        """Whether it does within some seconds."""
        until = time.monotonic() + _COMES_S
        while not self.shows(stage):
            if time.monotonic() > until:
                return False
            time.sleep(0.1)
        return True


def same_headline(seen: NDArray[np.uint8], wanted: NDArray[np.uint8]) -> bool:
    """Whether two pictures of pages of large words say the same."""
    if seen.shape != wanted.shape:
        return False
    rows = round(_HEADLINE * SIZE_PX[1])
    same = np.abs(seen[:rows].astype(int) - wanted[:rows].astype(int)).max(axis=2) < _SAME_COLOUR
    return bool(same.mean() > _SAME)


def page_of(stage: Stage) -> NDArray[np.uint8]:
    """The page as it is drawn, BGR."""
    page = live_page(LiveView(stage, plan_name="plan", health=Health()))
    return shown_by(lambda surface: draw_live(surface, page))


def shown_by(draw: Callable[[pygame.Surface], object]) -> NDArray[np.uint8]:
    """What something draws on the whole screen, BGR."""
    surface = pygame.Surface(SIZE_PX)
    draw(surface)
    rgb = np.swapaxes(pygame.surfarray.array3d(surface), 0, 1)
    return np.asarray(cv2.cvtColor(rgb, cv2.COLOR_RGB2BGR), dtype=np.uint8)


def _picture_of(dump: bytes) -> NDArray[np.uint8]:
    """Read X's own dump: a header of big-endian words, a colour map, rows of BGRX."""
    if len(dump) < 100:
        return np.empty((0, 0, 3), np.uint8)
    header = np.frombuffer(dump[:100], ">u4")
    start, width, height, row, colours = (int(header[k]) for k in (0, 4, 5, 12, 19))
    pixels = np.frombuffer(dump, np.uint8, row * height, start + 12 * colours)
    return pixels.reshape(height, row // 4, 4)[:, :width, :3]
