"""What a system may lack that pip cannot bring, and the line that gets it."""

import re

GRAPHICS = "libgl1 libegl1 libgles2 libglib2.0-0"
SOUND = "libportaudio2"


def get_line(packages: str = GRAPHICS) -> str:
    """What to type where these are missing."""
    return f"on Debian or Ubuntu: apt-get install {packages}"


def missing_library(text: str) -> str | None:
    """What to do if an error says that the system lacks a shared library; else None."""
    found = re.search(r"(lib[\w.+-]+\.so[\w.]*): cannot open shared object", text)
    if found is None:
        return None
    return f"this system lacks {found[1]}; {get_line()}"
