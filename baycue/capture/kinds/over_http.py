"""A phone or network camera with a web address."""

from urllib.parse import urlsplit

from baycue.capture.camera_kind import CameraKind
from baycue.capture.feed import Feed
from baycue.capture.network import MjpegFeed
from baycue.capture.stream import StreamFeed
from baycue.errors import CameraError


def open_http(url: str) -> Feed:
    """JPEGs over HTTP by our own reader; all else by FFmpeg."""
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


KIND = CameraKind(("http", "https"), "http://192.168.1.20:8080/video", open_http)
