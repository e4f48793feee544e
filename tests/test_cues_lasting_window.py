"""A window that is lost with its display is told of, and opened again when that is back."""

import pytest

from baycue.cues import lasting_window
from baycue.cues.distant_window import DistantWindow
from baycue.cues.lasting_window import LastingWindow
from baycue.errors import OutputError
from baycue.rehearsal.faults.display import Display
from tests.sound_server import wait_until
from tests.test_cues_display import needs_xvfb

GREEN = (20, 180, 60)


@needs_xvfb
def test_lost_and_opened_again(monkeypatch: pytest.MonkeyPatch) -> None:
    display, said = Display(), list[str]()
    display.start()
    monkeypatch.setenv("DISPLAY", display.name)
    window = LastingWindow(lambda: DistantWindow((640, 360), False, 0), said.append)
    try:
        first = window.surface()
        assert first is not None
        display.kill()
        while window.surface() is not None:
            window.show()
        assert said == [lasting_window.GONE]
        display.start()
        while (again := window.surface()) is None:
            pass
        assert again is not first
        again.fill(GREEN)
        window.show()
        # Whatever order the channels are dumped in.
        wait_until(lambda: sorted(display.picture()[360, 640].tolist()) == sorted(GREEN))
        assert said[1].startswith("the display is back: window 640 x 360 px")
    finally:
        window.close()
        display.kill()


class _LostWhileAsked(DistantWindow):
    """Whose process ends while it is asked whether it stands on the screen."""

    def __init__(self) -> None:
        super().__init__((64, 36), False, 0)

    def wait_until_open(self) -> None:
        self._process.kill()
        self._process.join()


def test_a_window_lost_while_asked_is_told_of_at_once() -> None:
    said = list[str]()
    window = LastingWindow(_LostWhileAsked, said.append)
    assert window.surface() is None
    assert said == [lasting_window.GONE]
    window.close()


@needs_xvfb
def test_a_display_that_is_not_there_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DISPLAY", ":12345")
    with pytest.raises(OutputError, match="no window"):
        LastingWindow(lambda: DistantWindow((640, 360), False, 0), print)
