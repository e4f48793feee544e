"""Kept films in players of other people: GStreamer's own demuxer and libjpeg, and Chromium."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from baycue.capture.clip_writer import TICKS_PER_S
from baycue.keep.film import FilmWriter
from baycue.keep.film_check import cut_half_written
from baycue.keep.small_film import make_small
from tests.chromium import CHROMIUM, dumped
from tests.jpeg_shots import jpeg_shots, uneven_stamps_ns

STAMPS = uneven_stamps_ns(12)
PLAYER = shutil.which("gst-launch-1.0")
needs_player = pytest.mark.skipif(PLAYER is None, reason="GStreamer is not installed")
_HEAD = """<!doctype html><p id="told">nothing</p><video muted src="{}"></video><script>
const video = document.querySelector("video"), told = document.querySelector("#told");
video.onerror = () => {{ told.textContent = "cannot be played"; }};
video.onloadeddata = () => {{
  const size = `${{video.videoWidth}}x${{video.videoHeight}}`;
  told.textContent = `${{size}} ${{video.duration.toFixed(3)}} s`;
}};
</script>"""


def filmed(path: Path) -> list[int]:
    """Write a film; the sizes it had on the disk after each shot."""
    writer, sizes = FilmWriter(path), []
    for shot in jpeg_shots(STAMPS):
        writer.write(shot)
        sizes.append(writer.partial_path.stat().st_size)
    data = writer.partial_path.read_bytes()
    path.with_name("so_far.mov").write_bytes(data)
    writer.finish()
    return sizes


def played_ns(path: Path) -> list[int]:
    """When GStreamer shows each picture of a film."""
    assert PLAYER is not None
    words = ["qtdemux", "jpegdec", "fakesink silent=false sync=false"]
    pipe = " ! ".join([f"filesrc location={path}", *words]).split()
    done = subprocess.run([PLAYER, "-v", *pipe], capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    times = re.findall(r"chain .*?pts: (\d+):(\d+):(\d+)\.(\d{9})", done.stdout)
    return [
        ((int(h) * 60 + int(m)) * 60 + int(s)) * 1_000_000_000 + int(ns) for h, m, s, ns in times
    ]


@needs_player
def test_a_whole_film_plays_at_its_times(tmp_path: Path) -> None:
    filmed(tmp_path / "a.mov")
    shown = played_ns(tmp_path / "a.mov")
    assert len(shown) == len(STAMPS)
    off = [abs(a - (b - STAMPS[0])) for a, b in zip(shown, STAMPS, strict=True)]
    assert max(off) <= 1e9 / TICKS_PER_S


@needs_player
@pytest.mark.parametrize("share", [0.3, 0.55, 0.8, 1.0])
def test_cut_off_anywhere_it_still_plays(share: float, tmp_path: Path) -> None:
    """As it lies there after a kill, and as ``recover`` leaves it."""
    sizes = filmed(tmp_path / "a.mov")
    data = (tmp_path / "so_far.mov").read_bytes()
    cut = tmp_path / "cut.mov"
    cut.write_bytes(data[: int(share * len(data))])
    written = sum(size <= share * len(data) for size in sizes)
    for _ in range(2):
        shown = played_ns(cut)
        assert len(shown) >= written - 2, "the newest picture waits, and players stop one short"
        assert shown == sorted(set(shown))
        cut_half_written(cut)


@pytest.mark.skipif(CHROMIUM is None, reason="there is no Chromium here")
def test_a_small_film_plays_in_a_browser(tmp_path: Path) -> None:
    writer = FilmWriter(tmp_path / "a.mov")
    for shot in jpeg_shots(STAMPS):
        writer.write(shot)
    film = writer.finish()
    assert film is not None
    make_small(tmp_path / "a.mov", film, tmp_path / "a.mp4")
    page = tmp_path / "page.html"
    page.write_text(_HEAD.format("a.mp4"), encoding="utf-8")
    told = re.search(r'id="told">([^<]*)<', dumped(page, tmp_path))
    assert told is not None
    size, seconds, _ = told[1].split()
    assert size == "64x48"
    assert float(seconds) == pytest.approx((STAMPS[-1] - STAMPS[0]) * 1e-9, abs=0.1)
