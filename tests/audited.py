"""Run a command line and write down every try to reach a network.

    python -m tests.audited FILE COMMAND...

Uses Python's audit events (PEP 578); what a C library does by itself is not seen.
"""

import sys
from pathlib import Path

from baycue.cli import main

_NETWORK = ("socket.connect", "socket.sendto", "socket.sendmsg", "socket.getaddrinfo",
            "socket.gethostbyname", "socket.bind", "urllib.Request", "ftplib.connect")  # fmt: skip


def write_down_tries(file: Path) -> None:
    """From now on, each try of this process; a hook can never be taken off again."""

    def watch(event: str, facts: tuple[object, ...]) -> None:
        if event in _NETWORK:
            with file.open("a", encoding="utf-8") as seen:
                seen.write(f"{event} {facts!r:.200}\n")

    sys.addaudithook(watch)


if __name__ == "__main__":
    write_down_tries(Path(sys.argv[1]))
    main(sys.argv[2:])
