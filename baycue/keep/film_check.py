"""Reading a kept film back, whole or cut off."""

from pathlib import Path
from typing import IO

import av

from baycue.errors import FilmGoneError
from baycue.keep.film import checksum
from baycue.keep.record import Film


def readable_stamps_ns(path: Path) -> tuple[tuple[int, int], list[int]]:
    """Width and height, and each readable picture's stamp from the first one's; none if none."""
    stamps_ns: list[int] = []
    size = (0, 0)
    try:
        with av.open(str(path), metadata_errors="replace") as container:
            stream = container.streams.video[0]
            size = stream.width, stream.height
            for packet in container.demux(stream):
                if packet.size and packet.pts is not None and packet.time_base is not None:
                    stamps_ns.append(round(packet.pts * packet.time_base * 1_000_000_000))
    except (av.FFmpegError, OSError, IndexError):
        pass
    return size, stamps_ns


def cut_half_written(path: Path) -> None:
    """Cut a film's last, half-written piece off, at which players would stumble.

    A QuickTime file is a row of boxes, each with its size before it (ISO/IEC 14496-12, 4.2);
    a piece is a ``moof`` box and the ``mdat`` box that it tells of.
    """
    size, end, whole = path.stat().st_size, 0, 0
    with path.open("r+b") as file:
        while (box := _box_at(file, end)) is not None and end + box[1] <= size:
            end += box[1]
            whole = whole if box[0] == b"moof" else end
        file.truncate(whole)


def _box_at(file: IO[bytes], at: int) -> tuple[bytes, int] | None:
    """Kind and whole size of the box that begins there; None if none does."""
    file.seek(at)
    head = file.read(16)
    if len(head) < 8:
        return None
    size = int.from_bytes(head[:4])
    if size == 1 and len(head) == 16:
        size = int.from_bytes(head[8:])
    return (head[4:8], size) if size >= 8 else None


def check_film(path: Path, film: Film, every_byte: bool = False) -> None:
    """KeptError if a film is gone or is not as it was written.

    ``every_byte``: also read it all.
    """
    if not path.exists():
        raise FilmGoneError(f"{path}: the film is gone")
    nbytes = path.stat().st_size
    if nbytes != film.nbytes:
        raise FilmGoneError(f"{path}: damaged, it has {nbytes} bytes instead of {film.nbytes}")
    if every_byte and checksum(path) != film.crc32:
        _, stamps_ns = readable_stamps_ns(path)
        raise FilmGoneError(
            f"{path}: damaged, its bytes are not those that were written; "
            f"{len(stamps_ns)} of {len(film.stamps_ns)} pictures can still be found"
        )
