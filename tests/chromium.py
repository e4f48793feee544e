"""A real browser without a window: pictures, print, and what it asks of the network."""

import contextlib
import shutil
import socket
import subprocess
import threading
from collections.abc import Iterator
from pathlib import Path

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
_FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--hide-scrollbars",
)
_NOWHERE = "--proxy-server=http://127.0.0.1:9"
"""The discard port: what the browser wants for itself goes nowhere."""
_ITS_OWN = ("google.com", "googleapis.com", "gvt1.com")
"""Whom Chromium asks for updates and the time, whatever page it shows."""
_DARK, _LIGHT = 0, 1


def run_chromium(folder: Path, *words: str, dark: bool = False) -> str:
    """Run it once with a fresh profile below the folder; what it prints to standard output."""
    assert CHROMIUM is not None
    profile = folder / "profile"
    shutil.rmtree(profile, ignore_errors=True)
    scheme = f"--blink-settings=preferredColorScheme={_DARK if dark else _LIGHT}"
    done = subprocess.run(
        [CHROMIUM, *_FLAGS, scheme, f"--user-data-dir={profile}", *words],
        capture_output=True,
        text=True,
        timeout=180,
        check=True,
    )
    return done.stdout


def screenshot(page: Path, picture: Path, width_px: int, height_px: int, dark: bool) -> None:
    """A PNG of the page's first so many pixels."""
    size = f"--window-size={width_px},{height_px}"
    words = (_NOWHERE, f"--screenshot={picture}", size, page.as_uri())
    run_chromium(picture.parent, *words, dark=dark)


def printed(page: Path, pdf: Path) -> None:
    """The page as it prints."""
    run_chromium(
        pdf.parent, _NOWHERE, f"--print-to-pdf={pdf}", "--no-pdf-header-footer", page.as_uri()
    )


def dumped(page: Path, folder: Path) -> str:
    """The page as it is when all has been loaded and its scripts have run."""
    words = (_NOWHERE, "--dump-dom", "--virtual-time-budget=5000", page.as_uri())
    return run_chromium(folder, *words)


class Listener:
    """A loopback proxy that answers nothing and remembers what it was asked for."""

    def __init__(self) -> None:
        self.asked: list[str] = []
        self._socket = socket.create_server(("127.0.0.1", 0))
        self.address = f"127.0.0.1:{self._socket.getsockname()[1]}"
        self._thread = threading.Thread(target=self._listen, daemon=True)
        self._thread.start()

    def _listen(self) -> None:
        with contextlib.suppress(OSError):
            while True:
                connection, _ = self._socket.accept()
                with connection:
                    connection.settimeout(5)
                    with contextlib.suppress(OSError):
                        line = connection.recv(2000).split(b"\r\n")[0].decode("latin-1")
                        self.asked.append(line)

    def close(self) -> None:
        self._socket.shutdown(socket.SHUT_RDWR)
        self._socket.close()
        self._thread.join()


@contextlib.contextmanager
def listening() -> Iterator[Listener]:
    """A listener that is closed in the end."""
    listener = Listener()
    try:
        yield listener
    finally:
        listener.close()


def asked_for(page: Path, folder: Path) -> list[str]:
    """What the browser asks of the network while it shows a page."""
    with listening() as listener:
        run_chromium(
            folder,
            f"--proxy-server=http://{listener.address}",
            "--proxy-bypass-list=<-loopback>",
            "--dump-dom",
            "--virtual-time-budget=2000",
            page.as_uri(),
        )
        return [line for line in listener.asked if not any(own in line for own in _ITS_OWN)]
