"""Names of folders that are safe on every system, whatever a student is called."""

import hashlib
import re
import unicodedata

_LONGEST = 32
_REFUSED_BY_WINDOWS = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)", re.IGNORECASE)


def folder_name(student: str) -> str:
    """``heron-1f0c2a9b``: letters and digits of the name, then a mark that keeps names apart.

    Two names give two folders also where a system takes them for one (``Heron``, ``heron``).
    Only a to z, 0 to 9, ``_`` and ``-`` are used, so that no name can lead out of a folder.
    """
    plain = unicodedata.normalize("NFKD", student).encode("ascii", "ignore").decode()
    word = re.sub(r"[^a-z0-9]+", "_", plain.lower()).strip("_")[:_LONGEST].rstrip("_")
    if not word or _REFUSED_BY_WINDOWS.fullmatch(word):
        word = f"student_{word}".rstrip("_")
    mark = hashlib.sha256(student.encode("utf-8", "surrogatepass")).hexdigest()[:8]
    return f"{word}-{mark}"


def readable(text: str) -> str:
    """The text with a mark for each byte that was no UTF-8 in a command line or a file's name.

    Python hands such bytes on as lone surrogates, which no file of ours can hold.
    """
    return text.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
