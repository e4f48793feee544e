"""The clock that pictures are stamped by never goes back."""

from baycue.capture.steady import SteadyClock


def test_it_goes_on_from_where_it_was_when_the_clock_below_is_set_back() -> None:
    times = iter([0, 10, 20, -60, -50, -50, -30])
    clock = SteadyClock(lambda: next(times))
    assert [clock() for _ in range(6)] == [10, 20, 20, 30, 30, 50]


def test_a_clock_that_goes_ahead_is_followed() -> None:
    times = iter([0, 10, 1000, 1010])
    clock = SteadyClock(lambda: next(times))
    assert [clock() for _ in range(3)] == [10, 1000, 1010]
