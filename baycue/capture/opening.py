"""From what the user calls a source to something that opens it."""

from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

from baycue.capture.devices import camera_named, cameras
from baycue.capture.feed import Feed, OpenFeed
from baycue.capture.kind_catalogue import kind_of
from baycue.capture.paced_file import PacedFileFeed
from baycue.capture.probe import probe
from baycue.capture.settings import CameraSettings
from baycue.capture.watchdog import Patience
from baycue.capture.webcam import WebcamFeed

_CLIPS = (".mp4", ".mov", ".mkv", ".webm", ".avi", ".m4v")


@dataclass(frozen=True, slots=True)
class LiveSource:
    """How to open a source, how patient to be with it, and whether it has an end."""

    name: str
    open_feed: OpenFeed
    patience: Patience
    ends: bool = False


def live_source(text: str, settings: CameraSettings) -> LiveSource:
    """A webcam by number or name, a camera by address, a recording by path.

    Raises CameraError for an address of no known kind and RecordingError for a file that
    cannot be played.  Cameras are not opened yet; one that is off may be switched on later.
    """
    if text.isdigit():
        return LiveSource(f"camera {text}", lambda: WebcamFeed(int(text), settings), Patience())
    if "://" in text:
        kind = kind_of(text)
        return LiveSource(urlsplit(text).hostname or text, lambda: kind.open_feed(text), Patience())
    path = Path(text)
    if path.exists() or path.suffix.lower() in _CLIPS:
        probe(path)
        return LiveSource(path.name, lambda: PacedFileFeed(path), Patience(frozen_ns=None), True)
    camera_named(text, cameras())
    return LiveSource(text, lambda: _named(text, settings), Patience())


def open_address(address: str) -> Feed:
    """Whatever kind of camera has such addresses; CameraError if none has."""
    return kind_of(address).open_feed(address)


def _named(name: str, settings: CameraSettings) -> Feed:
    """Looked up anew each time: plugged in again, a camera may get another number."""
    return WebcamFeed(camera_named(name, cameras()).index, settings)
