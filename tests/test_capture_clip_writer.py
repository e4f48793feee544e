from pathlib import Path

import numpy as np
import pytest

from baycue.capture.clip_writer import TICKS_PER_S, ClipWriter, ticks
from baycue.capture.frame import Frame
from baycue.capture.recording import RecordingSource
from baycue.errors import OutputError
from tests.conftest import MakeClip, number_in

TICK_NS = 1e9 / TICKS_PER_S


def uneven_stamps_ns(count: int) -> list[int]:
    """About 60 a second, up to 4 ms late each, not starting at zero."""
    late = np.random.default_rng(3).integers(0, 4_000_000, count)
    return [5_000_000_123 + int(i * 1e9 / 60) + int(late[i]) for i in range(count)]


def test_stamps_and_pictures_survive_a_round_trip(make_clip: MakeClip) -> None:
    stamps = uneven_stamps_ns(65)
    with RecordingSource(make_clip(stamps)) as source:
        frames = list(source)
    read = np.array([frame.stamp_ns for frame in frames])
    assert np.abs(read - (np.array(stamps) - stamps[0])).max() <= TICK_NS
    assert [number_in(frame.picture_bgr) for frame in frames] == list(range(65))


def test_ticks_round_to_the_nearest() -> None:
    assert [ticks(0), ticks(1_000_000_000), ticks(11_000), ticks(5_000)] == [0, 90_000, 1, 0]


def test_never_overwrites(make_clip: MakeClip) -> None:
    path = make_clip([0, 20_000_000])
    before = path.read_bytes()
    with pytest.raises(OutputError, match=r"clip\.mp4: exists already"):
        ClipWriter(path, 64, 48)
    assert path.read_bytes() == before


def test_keeps_a_partial_left_by_an_interruption(tmp_path: Path) -> None:
    path = tmp_path / "clip.mp4"
    picture = np.zeros((48, 64, 3), np.uint8)

    def interrupted() -> None:
        with ClipWriter(path, 64, 48) as writer:
            for number in range(40):
                writer.write(Frame(number, number * 20_000_000, picture))
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        interrupted()
    assert not path.exists()
    with RecordingSource(tmp_path / "clip.mp4.partial") as source:
        assert len(list(source)) == 40
    with pytest.raises(OutputError, match="left over"):
        ClipWriter(path, 64, 48)


def test_what_is_written_so_far_can_be_read_before_the_clip_is_finished(tmp_path: Path) -> None:
    picture = np.zeros((48, 64, 3), np.uint8)
    with ClipWriter(tmp_path / "clip.mp4", 64, 48) as writer:
        for number in range(200):
            writer.write(Frame(number, number * 20_000_000, picture))
        crashed = tmp_path / "crashed.mp4"
        crashed.write_bytes(writer.partial_path.read_bytes())
    with RecordingSource(crashed) as source:
        assert len(list(source)) >= 90


def test_pads_odd_sides(make_clip: MakeClip) -> None:
    with RecordingSource(make_clip([0, 20_000_000], width_px=63, height_px=47)) as source:
        assert (source.width_px, source.height_px) == (64, 48)


def test_refuses_an_empty_clip_and_leaves_nothing(tmp_path: Path) -> None:
    with (
        pytest.raises(OutputError, match="no picture came"),
        ClipWriter(tmp_path / "clip.mp4", 64, 48),
    ):
        pass
    assert list(tmp_path.iterdir()) == []


def test_refuses_a_missing_folder(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="cannot be written"):
        ClipWriter(tmp_path / "nowhere" / "clip.mp4", 64, 48)


def test_refuses_a_stamp_that_does_not_increase(tmp_path: Path) -> None:
    picture = np.zeros((48, 64, 3), np.uint8)
    with ClipWriter(tmp_path / "clip.mp4", 64, 48) as writer:
        writer.write(Frame(0, 7, picture))
        with pytest.raises(ValueError, match="not later"):
            writer.write(Frame(1, 7, picture))


def test_refuses_a_picture_of_another_size(tmp_path: Path) -> None:
    with ClipWriter(tmp_path / "clip.mp4", 64, 48) as writer:
        writer.write(Frame(0, 0, np.zeros((48, 64, 3), np.uint8)))
        with pytest.raises(ValueError, match="expected"):
            writer.write(Frame(1, 1, np.zeros((48, 65, 3), np.uint8)))
