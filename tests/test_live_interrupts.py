"""Ctrl-C is noted once, wherever it falls."""

import gc
import os
import signal
import threading
from collections.abc import Iterator

import pytest

from baycue.live.interrupts import Interrupts


@pytest.fixture(autouse=True)
def python_heeds_interrupts() -> Iterator[None]:
    """A shell's background jobs start with Ctrl-C ignored, and so then does Python."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


def interrupt() -> None:
    os.kill(os.getpid(), signal.SIGINT)


def test_the_first_is_noted_and_the_second_interrupts() -> None:
    with Interrupts() as interrupts:
        assert not interrupts.came
        interrupt()
        assert interrupts.came
        with pytest.raises(KeyboardInterrupt):
            interrupt()
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


class Finalised:
    """Interrupted while Python finalises it, where exceptions cannot be raised."""

    def __del__(self) -> None:
        interrupt()


def test_one_that_falls_into_a_finaliser_is_noted_too() -> None:
    with Interrupts() as interrupts:
        Finalised()
        gc.collect()
        assert interrupts.came


def test_it_is_left_as_it_was_without_one() -> None:
    before = signal.getsignal(signal.SIGINT)
    with Interrupts():
        assert signal.getsignal(signal.SIGINT) is not before
    assert signal.getsignal(signal.SIGINT) is before


def test_another_thread_has_no_say() -> None:
    before = signal.getsignal(signal.SIGINT)
    came: list[bool] = []

    def enter() -> None:
        with Interrupts() as interrupts:
            came.append(interrupts.came)

    thread = threading.Thread(target=enter)
    thread.start()
    thread.join()
    assert came == [False]
    assert signal.getsignal(signal.SIGINT) is before
