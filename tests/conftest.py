"""Fixtures that several rooms' tests share."""

import os
import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest

from baycue.capture.clip_writer import ClipWriter
from baycue.capture.frame import Frame, Picture

MakeClip = Callable[..., Path]
"""``make_clip(stamps_ns, width_px=64, height_px=48, name="clip.mp4")`` writes a small video."""


@pytest.fixture(autouse=True)
def no_data_of_ones_own(
    tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing that a test keeps goes into the data folder of whoever runs it."""
    for name in ("XDG_DATA_HOME", "LOCALAPPDATA"):
        monkeypatch.setenv(name, str(tmp_path_factory.getbasetemp() / "data"))


def grey_with_number(number: int, width_px: int, height_px: int) -> Picture:
    """A picture whose brightness tells its number: 3 grey levels a step, from 20."""
    return np.full((height_px, width_px, 3), 20 + 3 * (number % 70), dtype=np.uint8)


def number_in(picture: Picture) -> int:
    """The number that ``grey_with_number`` put into the picture."""
    return round((float(picture.mean()) - 20) / 3)


@pytest.fixture
def make_clip(tmp_path: Path) -> MakeClip:
    """Write a video of numbered grey pictures with the given stamps."""

    def make(
        stamps_ns: list[int], width_px: int = 64, height_px: int = 48, name: str = "clip.mp4"
    ) -> Path:
        path = tmp_path / name
        with ClipWriter(path, width_px, height_px) as writer:
            for number, stamp_ns in enumerate(stamps_ns):
                picture = grey_with_number(number, width_px, height_px)
                writer.write(Frame(number, stamp_ns, picture))
        return path

    return make


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A file system of 2 MB."""
    if os.name != "posix" or os.geteuid() != 0 or shutil.which("mount") is None:
        pytest.skip("only root can mount a small disk")
    folder = tmp_path / "disk"
    folder.mkdir()
    made = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=2m", "tmpfs", str(folder)], capture_output=True
    )
    if made.returncode:
        pytest.skip("this root may not mount")
    yield folder
    subprocess.run(["umount", "-l", str(folder)], check=True)
