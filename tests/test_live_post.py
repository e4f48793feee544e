"""A picture goes once from process to process."""

import threading
from multiprocessing import Pipe
from multiprocessing.connection import Connection

import numpy as np
import pytest

from baycue.club.background import GreyPicture
from baycue.live.post import Receiver, Sender
from baycue.live.still import Still


def still(number: int, size_px: tuple[int, int] = (36, 64)) -> Still:
    rng = np.random.default_rng(number)
    return Still(number, number, rng.integers(0, 255, size_px, dtype=np.uint8))


class Counted:
    """A wire that counts what goes over it."""

    def __init__(self, wire: Connection) -> None:
        self._wire, self.sizes = wire, list[int]()

    def send(self, thing: object) -> None:
        self.sizes.append(36 * 64)
        self._wire.send(thing)

    def send_bytes(self, packed: memoryview) -> None:
        self.sizes.append(len(packed))
        self._wire.send_bytes(packed)


def same(mine: Still, theirs: Still) -> bool:
    return (mine.index, mine.stamp_ns) == (theirs.index, theirs.stamp_ns) and np.array_equal(
        mine.grey, theirs.grey
    )


def test_what_comes_is_what_was_sent_and_its_pictures_went_once() -> None:
    ours, theirs = Pipe()
    counted = Counted(ours)
    sender, receiver = Sender(counted), Receiver(theirs)  # type: ignore[arg-type]
    first, second = still(1), still(2)
    for stills in ((first,), (first, second), (second, first)):
        counted.sizes.clear()
        sender.send(stills)
        got = receiver.recv()
        assert len(got) == len(stills)
        assert all(same(mine, other) for mine, other in zip(got, stills, strict=True))
    assert len(counted.sizes) == 1
    assert counted.sizes[0] < 36 * 64


def test_long_ago_means_once_more_and_many_at_once_all_come() -> None:
    ours, theirs = Pipe()
    sender, receiver = Sender(ours), Receiver(theirs)
    many = tuple(still(k) for k in range(300))
    messages = (many, many[:3], many)
    sending = threading.Thread(target=lambda: [*map(sender.send, messages)])
    sending.start()
    for expected in messages:
        got: tuple[Still, ...] = receiver.recv()
        assert all(same(mine, other) for mine, other in zip(got, expected, strict=True))
    sending.join()


def test_another_picture_where_one_was_let_go_of_is_another() -> None:
    ours, theirs = Pipe()
    sender, receiver = Sender(ours), Receiver(theirs)
    for k in range(200):
        grey: GreyPicture = np.full((8, 8), k, dtype=np.uint8)
        sender.send(grey)
        assert np.array_equal(receiver.recv(), grey)
        del grey


def test_what_is_no_grey_picture_goes_as_it_is() -> None:
    ours, theirs = Pipe()
    Sender(ours).send((np.arange(3.0), np.zeros((2, 2, 3), np.uint8), "words", None))
    floats, coloured, words, nothing = Receiver(theirs).recv()
    assert np.array_equal(floats, np.arange(3.0))
    assert coloured.shape == (2, 2, 3)
    assert (words, nothing) == ("words", None)


def test_a_sender_that_is_gone_is_told_of() -> None:
    ours, theirs = Pipe()
    receiver = Receiver(theirs)
    ours.close()
    with pytest.raises(EOFError):
        receiver.recv()
