"""From what the user calls a source to something that opens it."""

from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

from baycue.capture.devices import camera_named, cameras
from baycue.capture.feed import Feed, OpenFeed
from baycue.capture.network import MjpegFeed
from baycue.capture.paced_file import PacedFileFeed
from baycue.capture.probe import probe
from baycue.capture.settings import CameraSettings
from baycue.capture.stream import StreamFeed
from baycue.capture.watchdog import Patience
from baycue.capture.webcam import WebcamFeed
from baycue.errors import CameraError

_SCHEMES = ("http", "https", "rtsp", "rtsps")
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
        _refuse_unknown(text)
        return LiveSource(urlsplit(text).hostname or text, lambda: open_address(text), Patience())
    path = Path(text)
    if path.exists() or path.suffix.lower() in _CLIPS:
        probe(path)
        return LiveSource(path.name, lambda: PacedFileFeed(path), Patience(frozen_ns=None), True)
    camera_named(text, cameras())
    return LiveSource(text, lambda: _named(text, settings), Patience())


def open_address(url: str) -> Feed:
    """JPEGs over HTTP by our own reader; all else by FFmpeg."""
    if not url.startswith("http"):
        return StreamFeed(url)
    feed = MjpegFeed(url)
    if feed.is_multipart:
        return feed
    feed.close()
    if feed.kind in ("text/html", "image/jpeg", "image/png"):
        what = "a web page" if feed.kind == "text/html" else "a single still picture"
        raise CameraError(
            f"{urlsplit(url).hostname}: that address gives {what}; the camera's own page or "
            "manual tells the address of its video, often /video or /stream"
        )
    return StreamFeed(url)


def _named(name: str, settings: CameraSettings) -> Feed:
    """Looked up anew each time: plugged in again, a camera may get another number."""
    return WebcamFeed(camera_named(name, cameras()).index, settings)


def _refuse_unknown(text: str) -> None:
    parts = urlsplit(text)
    if parts.scheme not in _SCHEMES or not parts.hostname:
        raise CameraError(
            f"{text}: no address of a camera; allowed are {', '.join(_SCHEMES)} with a host, "
            "such as http://192.168.1.20:8080/video"
        )
