"""What one side shows is never half of one picture and half of the next."""

from collections.abc import Iterator

import pytest

from baycue.cues.shared_pixels import BYTES_A_PX, Drawn, SharedPixels

SIZE_PX = 64, 36


def plain(value: int, size_px: tuple[int, int] = SIZE_PX) -> memoryview:
    return memoryview(bytes([value]) * (size_px[0] * size_px[1] * BYTES_A_PX))


@pytest.fixture
def sides() -> Iterator[tuple[SharedPixels, SharedPixels]]:
    """Who draws and who shows."""
    draws = SharedPixels()
    shows = SharedPixels(draws.name)
    yield draws, shows
    shows.close()
    draws.remove()


def values(shows: SharedPixels, drawn: Drawn) -> set[int]:
    place = shows.read(drawn)
    seen = set(place)
    place.release()
    return seen


def test_what_was_drawn_is_there(sides: tuple[SharedPixels, SharedPixels]) -> None:
    draws, shows = sides
    for value, size_px in ((3, SIZE_PX), (4, (30, 20)), (5, (80, 50))):
        drawn = draws.write(plain(value, size_px), size_px)
        assert drawn.size_px == size_px
        assert values(shows, drawn) == {value}
        assert shows.is_whole(drawn)


def test_the_next_picture_does_not_touch_the_one_being_shown(
    sides: tuple[SharedPixels, SharedPixels],
) -> None:
    draws, shows = sides
    shown = draws.write(plain(1), SIZE_PX)
    place = shows.read(shown)
    first_half = set(place[: len(place) // 2])
    draws.write(plain(2), SIZE_PX)
    assert first_half | set(place[len(place) // 2 :]) == {1}
    place.release()
    assert shows.is_whole(shown)


def test_a_picture_written_over_while_it_was_being_shown_is_told_of(
    sides: tuple[SharedPixels, SharedPixels],
) -> None:
    draws, shows = sides
    shown = draws.write(plain(1), SIZE_PX)
    place = shows.read(shown)
    first_half = set(place[: len(place) // 2])
    newest = [draws.write(plain(value), SIZE_PX) for value in (2, 3)][-1]
    assert first_half | set(place[len(place) // 2 :]) == {1, 3}, "it is torn"
    place.release()
    assert not shows.is_whole(shown)
    assert shows.is_whole(newest)
    assert values(shows, newest) == {3}
