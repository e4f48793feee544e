"""The ring's bounds and the mailbox's single place."""

import threading
from dataclasses import dataclass

from hypothesis import given
from hypothesis import strategies as st

from baycue.capture.mailbox import Mailbox
from baycue.capture.ring import Bounds, Ring


@dataclass(frozen=True)
class Parcel:
    index: int
    stamp_ns: int
    nbytes: int


def filled(
    bounds: Bounds, count: int, nbytes: int = 10, step_ns: int = 100_000_000
) -> Ring[Parcel]:
    ring: Ring[Parcel] = Ring(bounds)
    for k in range(count):
        ring.put(Parcel(k, k * step_ns, nbytes))
    return ring


def indices(ring: Ring[Parcel]) -> list[int]:
    return [p.index for p in ring.between(0, 1 << 62)]


class TestRing:
    def test_seconds_bound_it(self) -> None:
        assert indices(filled(Bounds(1.0, 1000), 50)) == list(range(39, 50))

    def test_bytes_bound_it(self) -> None:
        ring = filled(Bounds(100.0, 55), 50)
        assert indices(ring) == list(range(45, 50))
        assert ring.total_bytes == 50

    def test_the_newest_stays_though_it_is_too_large(self) -> None:
        assert indices(filled(Bounds(1.0, 5), 3)) == [2]

    @given(st.lists(st.tuples(st.integers(1, 10**9), st.integers(1, 400)), min_size=1, max_size=60))
    def test_never_more_than_its_bounds_and_never_a_hole(
        self, parcels: list[tuple[int, int]]
    ) -> None:
        ring: Ring[Parcel] = Ring(Bounds(2.0, 1000))
        stamp_ns = 0
        for k, (wait_ns, nbytes) in enumerate(parcels):
            stamp_ns += wait_ns
            ring.put(Parcel(k, stamp_ns, nbytes))
            held = ring.between(0, stamp_ns)
            assert ring.total_bytes == sum(p.nbytes for p in held) <= 1000
            assert stamp_ns - held[0].stamp_ns <= 2e9
            assert [p.index for p in held] == list(range(held[0].index, k + 1))

    def test_between_takes_both_ends(self) -> None:
        ring = filled(Bounds(10, 1000), 10)
        assert [p.index for p in ring.between(200_000_000, 400_000_000)] == [2, 3, 4]

    def test_waiting_ends_with_the_next_item(self) -> None:
        ring = filled(Bounds(10, 1000), 3)
        timer = threading.Timer(0.05, ring.put, [Parcel(3, 300_000_000, 10)])
        timer.start()
        assert [p.index for p in ring.wait_beyond(2, 20.0)] == [3]
        timer.join()

    def test_waiting_in_vain_ends_too(self) -> None:
        assert filled(Bounds(10, 1000), 3).wait_beyond(2, 0.01) == ()


class TestMailbox:
    def test_only_the_newest_letter_is_there_and_only_once(self) -> None:
        box: Mailbox[str] = Mailbox()
        for letter in ("first", "second", "third"):
            box.put(letter)
        assert (box.take(0), box.take(0)) == ("third", None)
        assert box.overwritten == 2

    def test_a_letter_taken_was_not_overwritten(self) -> None:
        box: Mailbox[int] = Mailbox()
        for letter in range(3):
            box.put(letter)
            assert box.take(0) == letter
        assert box.overwritten == 0

    def test_closing_wakes_who_waits(self) -> None:
        box: Mailbox[int] = Mailbox()
        timer = threading.Timer(0.05, box.close)
        timer.start()
        assert box.take(60.0) is None
        timer.join()
