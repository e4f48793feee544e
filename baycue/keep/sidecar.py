"""The sidecar file: one swing's record as gzipped JSON, with a version.

    {"format": "baycue swing", "version": 1, "swing": {...}}

``swing`` holds the fields of ``SwingRecord`` by their names, as ``codec`` writes them.  A field
that is added with a default needs no new version; one that goes, is renamed or changes its
meaning does: then ``VERSION`` goes up by one and ``_UPGRADES`` gets a function from the old
version's data to the new one's.  ``tests/data/swing_v1.json.gz`` must stay readable for ever.
"""

import gzip
import json
import zlib
from collections.abc import Callable
from pathlib import Path
from typing import Any

from baycue.errors import DamagedKeptError
from baycue.keep.codec import from_plain, to_plain
from baycue.keep.possible import refuse_impossible
from baycue.keep.record import SwingRecord

FORMAT, VERSION = "baycue swing", 1
LARGEST_BYTES = 16 << 20
"""Unpacked; a swing is about a tenth of a megabyte."""

_UPGRADES: dict[int, Callable[[dict[str, Any]], dict[str, Any]]] = {}
"""From this version's data to the next one's."""


def packed(record: SwingRecord) -> bytes:
    """The file's bytes."""
    document = {"format": FORMAT, "version": VERSION, "swing": to_plain(record)}
    return gzip.compress(json.dumps(document).encode(), compresslevel=1, mtime=0)


def unpacked(data: bytes, where: str) -> SwingRecord:
    """The record in a file's bytes; KeptError if they are damaged or of a newer version."""
    try:
        document = json.loads(_inflated(data))
        if document["format"] != FORMAT:
            raise ValueError("is no swing's sidecar")
        version = int(document["version"])
        if version > VERSION:
            raise ValueError(f"has version {version}, and this program knows {VERSION} at most")
        swing = document["swing"]
        for step in range(version, VERSION):
            swing = _UPGRADES[step](swing)
        record: SwingRecord = from_plain(SwingRecord, swing)
        refuse_impossible(record)
    except (zlib.error, EOFError, OSError, UnicodeDecodeError, json.JSONDecodeError):
        raise DamagedKeptError(f"{where}: damaged, it cannot be unpacked") from None
    except RecursionError:
        raise DamagedKeptError(f"{where}: damaged, it is nested too deep") from None
    except (KeyError, TypeError, OverflowError):
        raise DamagedKeptError(f"{where}: is no swing's sidecar") from None
    except ValueError as error:
        raise DamagedKeptError(f"{where}: {error}") from None
    return record


def read_sidecar(path: Path) -> SwingRecord:
    """Read a sidecar; KeptError if it is missing, damaged or of a newer version."""
    try:
        return unpacked(path.read_bytes(), str(path))
    except OSError as error:
        raise DamagedKeptError(f"{path}: cannot be read ({error.strerror})") from None


def _inflated(data: bytes) -> bytes:
    unpacker = zlib.decompressobj(wbits=31)
    text = unpacker.decompress(data, LARGEST_BYTES)
    if not unpacker.eof:
        raise EOFError
    return text
