"""Inputs that do one after another what no input may do, to try the watchdog on."""

import os
import re
from pathlib import Path
from random import Random

from baycue.errors import PlanError
from tests.fuzz.target import Target

HOWS = ("taken", "refused", "failed", "hung", "failed", "failed", "died", "taken")


def draw(random: Random) -> bytes:
    """A mark by which an input is known again."""
    return random.randbytes(4)


def feed(data: bytes, folder: Path) -> None:
    """What ``HOWS`` says of the input's number."""
    _ACTS[_NUMBERS[data]](folder)


def _refuse(folder: Path) -> None:
    raise PlanError("no")


def _fail(folder: Path) -> None:
    raise ZeroDivisionError


def _hang(folder: Path) -> None:
    """Inside one call of native code, which holds the interpreter's lock throughout."""
    re.match(r"(a+)+$", "a" * 60 + "b")


def _stray(folder: Path) -> None:
    (folder.parent / "stray").write_text("outside")


def _gorge(folder: Path) -> None:
    bytearray(1 << 31)


def _die(folder: Path) -> None:
    os._exit(9)


def _take(folder: Path) -> None:
    pass


_ACTS = (_take, _refuse, _fail, _hang, _stray, _gorge, _die, _take)
TARGET = Target("trial", 0.0, draw, feed)
_NUMBERS = {TARGET.input(1, number): number for number in range(len(_ACTS))}
