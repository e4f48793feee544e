"""A phone or network camera that sends JPEGs over HTTP."""

import base64
import http.client
import urllib.error
import urllib.request
from typing import Any
from urllib.parse import unquote, urlsplit, urlunsplit

from baycue.capture.mjpeg import JpegCutter
from baycue.capture.shot import Content
from baycue.errors import CameraError, CameraLostError

SILENCE_S = 2.0
"""A read that waits longer for a byte gives the connection up."""

_MULTIPART = "multipart/"


class MjpegFeed:
    """A ``Feed`` of whole JPEGs.

    Read here rather than through a video library, whose probing and buffers add delay: a
    picture is handed out with its last byte.  Raises CameraError if the address does not
    answer, refuses, or sends something else.
    """

    def __init__(self, url: str, silence_s: float = SILENCE_S) -> None:
        self._shown = without_password(url)
        self._response = _opened(url, self._shown, silence_s)
        self.kind = self._response.headers.get_content_type()
        self._cutter = JpegCutter(self._response)

    def read(self) -> Content:
        """The next JPEG, whole but not yet looked into."""
        try:
            return self._cutter.next_picture()
        except TimeoutError:
            raise CameraLostError(f"{self._shown}: sends nothing any more") from None
        except (OSError, http.client.HTTPException, ValueError) as error:
            raise CameraLostError(f"{self._shown}: the connection broke ({_why(error)})") from None

    def close(self) -> None:
        """Hang up."""
        self._response.close()

    def describe(self) -> str:
        """Address and kind of stream."""
        return f"{self._shown}, JPEGs over HTTP"

    @property
    def is_multipart(self) -> bool:
        """Whether it is a stream of pictures at all."""
        return bool(self.kind.startswith(_MULTIPART))


def without_password(url: str) -> str:
    """The address as it may be shown."""
    parts = urlsplit(url)
    host = parts.netloc.rpartition("@")[2]
    return urlunsplit((parts.scheme, host, parts.path, "", ""))


def _opened(url: str, shown: str, silence_s: float) -> Any:
    # No proxy: a camera stands in the bay.
    opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
    try:
        return opener.open(_request(url), timeout=silence_s)
    except urllib.error.HTTPError as error:
        error.close()
        raise CameraError(
            f"{shown}: answers {error.code} {error.reason}; check the path and the password"
        ) from None
    except (OSError, http.client.HTTPException, ValueError) as error:
        raise CameraError(
            f"{shown}: does not answer ({_why(error)}); check the address, and that the camera "
            "is on and in the same network"
        ) from None


def _request(url: str) -> urllib.request.Request:
    parts = urlsplit(url)
    user, _, host = parts.netloc.rpartition("@")
    bare = urlunsplit((parts.scheme, host, parts.path, parts.query, ""))
    request = urllib.request.Request(bare)
    if user:
        token = base64.b64encode(unquote(user).encode()).decode()
        request.add_header("Authorization", f"Basic {token}")
    return request


def _why(error: Exception) -> str:
    reason = getattr(error, "reason", error)
    return getattr(reason, "strerror", None) or str(reason) or type(error).__name__
