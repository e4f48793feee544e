"""The display and the window on it."""

import time

from baycue.live.view import Stage
from baycue.rehearsal.faults.bay import Bay, BaySettings
from baycue.rehearsal.faults.fault import Fault

_SHOWN_S = 30.0
_FOCUSED_S = 0.5
"""A window is told of the pointer, and of the keys that go to it, a little later."""
_WITH_DISPLAY = BaySettings(display=True)


def _window_is_back(bay: Bay) -> str:
    """A pause is asked for by key and looked for on the screen."""
    until = time.monotonic() + _SHOWN_S
    while time.monotonic() < until:
        bay.display.window()
        time.sleep(_FOCUSED_S)
        bay.display.do("key", "p")
        if bay.display.comes_to_show(Stage.PAUSED):
            return ""
    return "the window does not heed a key, or does not show it"


def _has_size(bay: Bay) -> str:
    until = time.monotonic() + _SHOWN_S
    while time.monotonic() < until:
        told = bay.display.do("getwindowgeometry", bay.display.window())
        if "900x600" in told:
            return ""
        time.sleep(0.1)
    return "the window did not take the size"


def _resize(bay: Bay) -> None:
    bay.display.do("windowsize", bay.display.window(), "900", "600")


def _ask_to_close(bay: Bay) -> None:
    bay.display.window()
    bay.display.do("key", "q")


def _destroy(bay: Bay) -> None:
    bay.display.do("windowkill", bay.display.window())


FAULTS = (
    Fault(
        "display-killed",
        "the X server is killed with the window on it, and started again",
        lambda bay: bay.display.kill(),
        lambda bay: bay.display.start(),
        "the display is gone",
        "the display is back",
        _WITH_DISPLAY,
        after=_window_is_back,
    ),
    Fault(
        "window-destroyed",
        "the window is taken away by another program",
        _destroy,
        told="the display is gone",
        told_again="the display is back",
        settings=_WITH_DISPLAY,
        after=_window_is_back,
    ),
    Fault(
        "window-resized",
        "the window is made smaller",
        _resize,
        settings=_WITH_DISPLAY,
        seen=_has_size,
    ),
    Fault(
        "window-left-by-key",
        "Q is pressed in the middle of a swing: the session is to end, whole",
        _ask_to_close,
        settings=_WITH_DISPLAY,
        ends=True,
    ),
)
