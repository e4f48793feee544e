"""The camera and its connection."""

from baycue.live.view import Stage
from baycue.rehearsal.faults.bay import Bay, BaySettings
from baycue.rehearsal.faults.fault import Deed, Fault

_OFFLINE, _ONLINE = "camera offline", "camera online again"


def _order(*lines: str) -> Deed:
    def deed(bay: Bay) -> None:
        for line in lines:
            bay.camera.order(line)

    return deed


def _says_offline(bay: Bay) -> str:
    """The large words, on the screen itself."""
    if not bay.settings.display:
        return ""
    shown = bay.display.comes_to_show(Stage.OFFLINE)
    return "" if shown else "the screen does not show CAMERA OFFLINE"


def _mood(name: str, done: str, mood: str, told: str = "") -> Fault:
    """A mood that is put on, and taken off again."""
    again = _ONLINE if told.startswith(_OFFLINE) else ""
    return Fault(name, done, _order(mood), _order("well"), told, again)


_WITH_DISPLAY = BaySettings(display=True)

FAULTS = (
    Fault("camera-cut", "the stream is cut once", _order("cut")),
    Fault(
        "camera-stalled",
        "the connection stays and nothing comes",
        _order("stall"),
        _order("well"),
        _OFFLINE,
        _ONLINE,
        _WITH_DISPLAY,
        _says_offline,
    ),
    _mood(
        "camera-slow",
        "8 pictures a second instead of 30",
        "slow",
        "camera too slow: only 8 pictures",
    ),
    _mood("camera-resized", "960x540 instead of 1280x720, in the middle of the stream", "small"),
    _mood("camera-twice", "every picture comes twice", "twice"),
    _mood("camera-frozen", "the same picture for ever", "frozen", _OFFLINE),
    _mood(
        "camera-bunched",
        "0.8 s of pictures come at once: stamps bunch up",
        "bunched",
        f"{_OFFLINE}.*bunches",
    ),
    _mood("camera-third-lost", "every third picture is lost", "hiccup"),
    _mood("camera-garbage", "JPEGs that hold noise", "garbage", _OFFLINE),
    _mood("camera-torn", "JPEGs of which the second half is missing", "torn", _OFFLINE),
    _mood("camera-black", "the lens is covered", "black", _OFFLINE),
    Fault(
        "camera-refuses",
        "the camera answers HTTP 503",
        _order("answer 503", "cut"),
        _order("answer 200"),
        f"{_OFFLINE}.*503",
        _ONLINE,
    ),
    Fault(
        "camera-gone",
        "switched off, and on again",
        _order("gone"),
        _order("back"),
        _OFFLINE,
        _ONLINE,
    ),
    Fault(
        "camera-not-there-yet",
        "off at the start, and switched on later",
        lambda bay: None,
        _order("back"),
        _OFFLINE,
        _ONLINE,
        BaySettings(camera_on=False),
        from_the_start=True,
    ),
    Fault("camera-passer-by", "somebody walks in behind", _order("joined"), _order("alone")),
)
