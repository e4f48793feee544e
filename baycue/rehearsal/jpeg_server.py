"""A network camera on this machine: JPEGs over HTTP, as phones and cheap cameras send them."""

import threading
from collections.abc import Callable, Iterable, Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from types import TracebackType
from typing import Any, Self

_BOUNDARY = "next-picture"

Show = Callable[[], Iterable[bytes]]
"""Starts a show for one viewer: pictures, each yielded when it is to be sent."""


class JpegServer:
    """Serves ``show`` to whoever asks, on a free port of 127.0.0.1, until closed.

    ``with_length``: whether each part states its length; not all cameras do.
    """

    def __init__(self, show: Show, with_length: bool = True, port: int = 0) -> None:
        self._http = _Server(("127.0.0.1", port), _Handler)
        self._http.show, self._http.with_length = show, with_length
        self._thread = threading.Thread(target=self._http.serve_forever, args=(0.05,), daemon=True)
        self._thread.start()

    @property
    def port(self) -> int:
        """Where it listens."""
        return int(self._http.server_address[1])

    @property
    def url(self) -> str:
        """The address of the video."""
        return f"http://127.0.0.1:{self.port}/video"

    def answer_with(self, status: int) -> None:
        """Answer whoever comes from now on with this HTTP status; 200 shows the show."""
        self._http.status = status

    def close(self) -> None:
        """Stop serving; shows under way end with their next picture."""
        self._http.closing.set()
        self._http.shutdown()
        self._http.server_close()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        error_type: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self.close()


class _Server(ThreadingHTTPServer):
    daemon_threads = True
    block_on_close = False
    show: Show
    with_length: bool
    status = 200

    def __init__(self, address: tuple[str, int], handler: type[BaseHTTPRequestHandler]) -> None:
        self.closing = threading.Event()
        super().__init__(address, handler)


class _Handler(BaseHTTPRequestHandler):
    server: _Server

    def do_GET(self) -> None:
        if self.server.status != 200:
            self.send_error(self.server.status)
        elif self.path == "/page":
            self._answer_with_a_page()
        elif self.path == "/video":
            self._answer_with_the_show()
        else:
            self.send_error(404)

    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing."""

    def _answer_with_a_page(self) -> None:
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.end_headers()
        self.wfile.write(b"<html>a camera</html>")

    def _answer_with_the_show(self) -> None:
        self.send_response(200)
        self.send_header("Content-Type", f"multipart/x-mixed-replace; boundary={_BOUNDARY}")
        self.end_headers()
        try:
            for part in self._parts():
                self.wfile.write(part)
        except OSError:
            pass  # the viewer has left

    def _parts(self) -> Iterator[bytes]:
        for picture in self.server.show():
            if self.server.closing.is_set():
                return
            length = f"Content-Length: {len(picture)}\r\n" if self.server.with_length else ""
            head = f"--{_BOUNDARY}\r\nContent-Type: image/jpeg\r\n{length}\r\n"
            yield head.encode() + picture + b"\r\n"
