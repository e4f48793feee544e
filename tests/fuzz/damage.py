"""Damage that any file may take: bytes that flip, go missing, come twice or end too soon."""

from collections.abc import Callable, Sequence
from random import Random

_MARKS = (b"\x00", b"\xff", b"\xff\xff\xff\xff", b"\x00\x00\x00\x00", b"\x7f\xff\xff\xff", b"\x80")
_LONGEST_PIECE = 64


def flipped(data: bytes, random: Random) -> bytes:
    """A few bits turned over."""
    changed = bytearray(data)
    for _ in range(random.choice((1, 1, 2, 8, 40))):
        if changed:
            changed[random.randrange(len(changed))] ^= 1 << random.randrange(8)
    return bytes(changed)


def marked(data: bytes, random: Random) -> bytes:
    """Numbers overwritten with the least and the largest."""
    at, mark = _at(data, random), random.choice(_MARKS)
    return data[:at] + mark + data[at + len(mark) :]


def cut(data: bytes, random: Random) -> bytes:
    """Ended too soon."""
    return data[: _at(data, random)]


def lost(data: bytes, random: Random) -> bytes:
    """A piece gone."""
    at = _at(data, random)
    return data[:at] + data[at + random.randint(1, _LONGEST_PIECE) :]


def doubled(data: bytes, random: Random) -> bytes:
    """A piece twice, the second time somewhere else."""
    start, at = _at(data, random), _at(data, random)
    return data[:at] + data[start : start + random.randint(1, _LONGEST_PIECE)] + data[at:]


def noisy(data: bytes, random: Random) -> bytes:
    """A piece of noise over what was there."""
    at, noise = _at(data, random), random.randbytes(random.randint(1, _LONGEST_PIECE))
    return data[:at] + noise + data[at + len(noise) :]


DAMAGES: Sequence[Callable[[bytes, Random], bytes]] = (
    flipped,
    flipped,
    marked,
    marked,
    cut,
    lost,
    doubled,
    noisy,
)


def damaged(data: bytes, random: Random) -> bytes:
    """Damaged once, or a few times over."""
    for _ in range(random.choice((1, 1, 1, 2, 5))):
        data = random.choice(DAMAGES)(data, random)
    return data


def _at(data: bytes, random: Random) -> int:
    """Somewhere; half of the time near the start, where files say what they are."""
    most = len(data) if random.random() < 0.5 else min(len(data), 512)
    return random.randint(0, most)
