"""A plan file's text: a plain file of bounded size, in UTF-8."""

import codecs
import stat
from pathlib import Path

from baycue.errors import PlanFileError
from baycue.plan.words import guess

LARGEST_FILE_BYTES = 256 * 1024
_UTF_16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)


def plan_text(path: Path) -> str:
    """What the file says; PlanError with one line if it cannot be read as text."""
    raw = _raw(path)
    if raw.startswith(_UTF_16):
        raise PlanFileError(f"{path}:1: is saved as UTF-16; save the file as UTF-8")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        byte = f"byte 0x{raw[error.start]:02x}"
        raise PlanFileError(
            f"{path}:{line}: {byte} is not UTF-8; save the file as UTF-8"
        ) from error


def _raw(path: Path) -> bytes:
    try:
        # Opening a pipe would wait for whoever writes into it.
        if not (stat.S_ISREG(mode := path.stat().st_mode) or stat.S_ISDIR(mode)):
            raise PlanFileError(f"{path}: is no plain file; name the plan's YAML file")
        with path.open("rb") as file:
            raw = file.read(LARGEST_FILE_BYTES + 1)
    except OSError as error:
        raise PlanFileError(f"{path}: cannot be read: {error.strerror}{_sibling(path)}") from error
    if len(raw) > LARGEST_FILE_BYTES:
        raise PlanFileError(
            f"{path}: is larger than {LARGEST_FILE_BYTES // 1024} kB; is it a plan?"
        )
    return raw


def _sibling(path: Path) -> str:
    """The nearest name in the same folder, if nothing has this one."""
    try:
        there = path.exists() or not path.parent.is_dir()
        return "" if there else guess(path.name, (p.name for p in path.parent.glob("*.y*ml")))
    except OSError:
        return ""
