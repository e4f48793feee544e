"""Results on disk: one file a clip, named by what it follows from, and never overwritten."""

from itertools import count
from pathlib import Path

from pydantic import ValidationError

from baycue.errors import OutputError
from baycue.folder.clip_result import ClipResult, Origin
from baycue.keep.place import PARTIAL
from baycue.keep.whole import write_whole

_ENDING = f".{16 * '0'}.json"
"""As long as every result's ending."""


class Store:
    """The results below one folder.

    A result is called ``<clip's name>.<key>.json``, where the key follows from the clip's
    bytes, the plan's text and the program's version: what changes gets a file of its own, and
    the older stays.  A file is written under another name and renamed when it is whole.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def file(self, name: str, origin: Origin) -> Path:
        """Where the result is, or would be."""
        return self.folder / f"{name}.{origin.key}.json"

    def find(self, name: str, origin: Origin) -> ClipResult | None:
        """The result, if it is there; one that is damaged is set aside."""
        path = self.file(name, origin)
        if not path.exists():
            return None
        result = read_result(path)
        if result is None or result.origin != origin:
            _set_aside(path)
            return None
        return result

    def by_clip(self) -> dict[str, tuple[Path, ...]]:
        """Every result there is, whatever it follows from, by its clip's name."""
        kept: dict[str, tuple[Path, ...]] = {}
        for path in sorted(self.folder.rglob("*.json")):
            name = path.relative_to(self.folder).as_posix()[: -len(_ENDING)]
            kept[name] = (*kept.get(name, ()), path)
        return kept

    def keep(self, name: str, content: bytes) -> ClipResult:
        """Write a result; raises ValueError if it is none, OutputError if it cannot be kept."""
        result = ClipResult.model_validate_json(content)
        keep_whole(self.file(name, result.origin), content)
        return result


def keep_whole(path: Path, content: bytes) -> None:
    """Write a new file and, if need be, its folder; what a killed run left of it is dropped."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.with_name(path.name + PARTIAL).unlink(missing_ok=True)
    except OSError as error:
        raise OutputError(f"{path}: cannot be written ({error.strerror})") from None
    write_whole(path, content)


def read_result(path: Path) -> ClipResult | None:
    """The result in a file, or None if it is none or damaged."""
    try:
        return ClipResult.model_validate_json(path.read_bytes())
    except (OSError, ValidationError):
        return None


def _set_aside(path: Path) -> None:
    free = (path.with_name(f"{path.name}.damaged-{n}") for n in count(1))
    path.rename(next(place for place in free if not place.exists()))
