"""A kept film: true times, playable whenever it was cut off, never overwritten."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from baycue.capture.clip_writer import TICKS_PER_S
from baycue.capture.frame import Frame
from baycue.capture.recording import RecordingSource
from baycue.capture.shot import Shot
from baycue.errors import KeptError, OutputError
from baycue.keep.film import FilmWriter, jpeg_size, packed_shot
from baycue.keep.film_check import check_film, cut_half_written, readable_stamps_ns
from baycue.keep.record import Film
from tests.conftest import number_in
from tests.jpeg_shots import jpeg_of, jpeg_shots, uneven_stamps_ns

TICK_NS = 1e9 / TICKS_PER_S


def filmed(path: Path, stamps_ns: list[int]) -> Film:
    writer = FilmWriter(path)
    for shot in jpeg_shots(stamps_ns):
        writer.write(shot)
    film = writer.finish()
    assert film is not None
    return film


def frames_of(path: Path) -> list[Frame]:
    with RecordingSource(path) as source:
        return list(source)


def test_stamps_and_pictures_come_back(tmp_path: Path) -> None:
    stamps = uneven_stamps_ns(65)
    film = filmed(tmp_path / "swing_001.mov", stamps)
    frames = frames_of(tmp_path / film.file)
    read_ns = np.array([frame.stamp_ns for frame in frames])
    assert np.abs(read_ns - (np.array(stamps) - stamps[0])).max() <= TICK_NS
    assert [number_in(frame.picture_bgr) for frame in frames] == list(range(65))
    assert film.stamps_ns == tuple(stamps)
    assert (film.width_px, film.height_px) == (64, 48)
    check_film(tmp_path / film.file, film, every_byte=True)


def test_a_cameras_jpegs_are_in_the_film_as_they_came(tmp_path: Path) -> None:
    film = filmed(tmp_path / "a.mov", uneven_stamps_ns(5))
    data = (tmp_path / film.file).read_bytes()
    assert all(jpeg_of(number) in data for number in range(5))


def test_plain_pictures_are_packed_and_jpegs_left_alone() -> None:
    plain = Shot(0, 7, np.full((48, 64, 3), 90, np.uint8))
    packed = packed_shot(plain)
    assert isinstance(packed.content, bytes)
    assert jpeg_size(packed.content) == (64, 48)
    assert packed_shot(packed) is packed
    assert np.abs(packed.developed().picture_bgr.astype(int) - 90).max() <= 2


def test_cut_off_anywhere_it_plays_up_to_there(tmp_path: Path) -> None:
    writer = FilmWriter(tmp_path / "a.mov")
    sizes = []
    for shot in jpeg_shots(uneven_stamps_ns(12)):
        writer.write(shot)
        sizes.append(writer.partial_path.stat().st_size)
    data = writer.partial_path.read_bytes()
    writer.finish()
    cut = tmp_path / "cut.mov"
    for length in [*range(sizes[5], sizes[6]), len(data)]:
        cut.write_bytes(data[:length])
        cut_half_written(cut)
        wanted = sum(size <= length for size in sizes) - 1  # the newest waits for the next one
        assert len(readable_stamps_ns(cut)[1]) == wanted, length
    cut.write_bytes(data)
    assert len(frames_of(cut)) == 11


def test_what_is_no_picture_of_this_film_is_left_out(tmp_path: Path) -> None:
    writer = FilmWriter(tmp_path / "a.mov")
    contents = (jpeg_of(0), b"", b"no jpeg", jpeg_of(1)[:-200], jpeg_of(2, 32, 24), jpeg_of(3))
    for k, content in enumerate(contents):
        writer.write(Shot(k, k * 20_000_000, content))
    writer.write(Shot(9, 0, jpeg_of(4)))  # not later than the one before
    writer.finish()
    assert readable_stamps_ns(tmp_path / "a.mov") == ((64, 48), [0, 100_000_000])


def test_never_overwrites(tmp_path: Path) -> None:
    film = filmed(tmp_path / "a.mov", uneven_stamps_ns(5))
    before = (tmp_path / film.file).read_bytes()
    with pytest.raises(OutputError, match="never overwritten"):
        FilmWriter(tmp_path / "a.mov")
    (tmp_path / "b.mov.partial").write_bytes(b"cut off earlier")
    with pytest.raises(OutputError, match="never overwritten"):
        FilmWriter(tmp_path / "b.mov")
    assert (tmp_path / film.file).read_bytes() == before
    assert (tmp_path / "b.mov.partial").read_bytes() == b"cut off earlier"


def test_nothing_that_came_leaves_nothing(tmp_path: Path) -> None:
    assert FilmWriter(tmp_path / "a.mov").finish() is None
    assert list(tmp_path.iterdir()) == []


def test_a_whole_film_is_not_cut(tmp_path: Path) -> None:
    film = filmed(tmp_path / "a.mov", uneven_stamps_ns(5))
    cut_half_written(tmp_path / film.file)
    check_film(tmp_path / film.file, film, every_byte=True)


def test_damage_is_told(tmp_path: Path) -> None:
    path = tmp_path / "a.mov"
    film = filmed(path, uneven_stamps_ns(20))
    whole = bytearray(path.read_bytes())
    whole[len(whole) // 2] ^= 0xFF
    path.write_bytes(whole)
    check_film(path, film)
    with pytest.raises(KeptError, match="20 of 20 pictures"):
        check_film(path, film, every_byte=True)
    path.write_bytes(whole[:-100])
    with pytest.raises(KeptError, match="bytes instead of"):
        check_film(path, film)
    path.unlink()
    with pytest.raises(KeptError, match="is gone"):
        check_film(path, replace(film, crc32=0))
