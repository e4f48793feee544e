"""Small dataclasses as plain JSON data and back, to the last bit.

Arrays keep their bytes (base64), enums their names, tuples become lists.  What the file lacks
takes the dataclass's default, so that a field that is added with a default needs no new version.
"""

import base64
from collections.abc import Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

import numpy as np

_NUMBERS = "biuf"
"""The kinds of array that are kept."""
_LARGEST_INT = 2**63 - 1
"""What SQLite and NumPy can hold."""

Plain = None | bool | int | float | str | list["Plain"] | dict[str, "Plain"]


def to_plain(value: object) -> Plain:
    """Plain data of a dataclass and what it holds; TypeError for anything else."""
    if isinstance(value, Enum):
        return value.name
    if isinstance(value, np.generic):
        return to_plain(value.item())
    if value is None or isinstance(value, bool | int | float | str):
        return value
    if isinstance(value, np.ndarray):
        return _array_to_plain(value)
    if isinstance(value, tuple):
        return [to_plain(item) for item in value]
    if is_dataclass(value) and not isinstance(value, type):
        return {f.name: to_plain(getattr(value, f.name)) for f in fields(value)}
    raise TypeError(f"{type(value).__name__} cannot be kept")


def from_plain(kind: Any, plain: Plain, where: str = "") -> Any:
    """The value of type ``kind``; ValueError says where the data do not fit it."""
    origin = get_origin(kind)
    if origin in (Union, UnionType):
        inner = next(k for k in get_args(kind) if k is not NoneType)
        return None if plain is None else from_plain(inner, plain, where)
    if origin is tuple:
        return _tuple_from_plain(get_args(kind), plain, where)
    if origin is np.ndarray:
        return _array_from_plain(plain, where)
    if isinstance(kind, type) and issubclass(kind, Enum):
        return _enum_from_plain(kind, plain, where)
    if is_dataclass(kind):
        return _dataclass_from_plain(kind, plain, where)
    return _scalar_from_plain(kind, plain, where)


def _array_to_plain(array: np.ndarray[Any, Any]) -> Plain:
    ordered = np.ascontiguousarray(array)
    data = base64.b64encode(ordered.tobytes()).decode("ascii")
    return {"dtype": ordered.dtype.str, "shape": list(array.shape), "base64": data}


def _array_from_plain(plain: Plain, where: str) -> np.ndarray[Any, Any]:
    try:
        assert isinstance(plain, dict)
        shape: Any = plain["shape"]
        raw = base64.b64decode(str(plain["base64"]), validate=True)
        dtype = np.dtype(str(plain["dtype"]))
        assert dtype.kind in _NUMBERS
        return np.frombuffer(raw, dtype).reshape(shape).copy()
    except (AssertionError, KeyError, TypeError, ValueError, SyntaxError, OverflowError):
        raise ValueError(f"{where}: is no array") from None


def _tuple_from_plain(kinds: tuple[Any, ...], plain: Plain, where: str) -> tuple[Any, ...]:
    if not isinstance(plain, list):
        raise ValueError(f"{where}: is no list")
    if len(kinds) == 2 and kinds[1] is Ellipsis:
        return tuple(from_plain(kinds[0], p, f"{where}[{k + 1}]") for k, p in enumerate(plain))
    if len(kinds) != len(plain):
        raise ValueError(f"{where}: has {len(plain)} items, {len(kinds)} are wanted")
    pairs = enumerate(zip(kinds, plain, strict=True))
    return tuple(from_plain(kind, p, f"{where}[{k + 1}]") for k, (kind, p) in pairs)


def _enum_from_plain(kind: type[Enum], plain: Plain, where: str) -> Enum:
    if not isinstance(plain, str) or plain not in kind.__members__:
        allowed = ", ".join(kind.__members__)
        raise ValueError(f'{where}: "{plain}" is not known; allowed: {allowed}')
    return kind[plain]


def _dataclass_from_plain(kind: Any, plain: Plain, where: str) -> Any:
    if not isinstance(plain, Mapping):
        raise ValueError(f"{where or kind.__name__}: is no object")
    known = _fields(kind)
    for name in plain:
        if name not in known:
            raise ValueError(f"{where}.{name}: is not known to this version".lstrip("."))
    values = {
        name: from_plain(hint, plain[name], f"{where}.{name}".lstrip("."))
        for name, (hint, _) in known.items()
        if name in plain
    }
    for name, (_, field) in known.items():
        if name not in plain and _must_be_given(field):
            raise ValueError(f"{where}.{name}: is missing".lstrip("."))
    return kind(**values)


def _scalar_from_plain(kind: Any, plain: Plain, where: str) -> Any:
    if isinstance(plain, int) and not -_LARGEST_INT - 1 <= plain <= _LARGEST_INT:
        raise ValueError(f"{where}: has a number of {len(str(plain))} digits")
    if isinstance(plain, str) and not _is_text(plain):
        raise ValueError(f"{where}: {plain!a:.40} is no text")
    if kind is float and isinstance(plain, int) and not isinstance(plain, bool):
        return float(plain)
    if type(plain) is not kind:
        raise ValueError(f"{where}: {plain!r:.40} is no {kind.__name__}")
    return plain


def _is_text(text: str) -> bool:
    """Whether it can be written to a file; JSON can tell of half characters, which cannot."""
    return not any("\ud800" <= character <= "\udfff" for character in text)


@cache
def _fields(kind: Any) -> dict[str, tuple[Any, "Field[Any]"]]:
    hints = get_type_hints(kind)
    return {f.name: (hints[f.name], f) for f in fields(kind)}


def _must_be_given(field: "Field[Any]") -> bool:
    return field.default is MISSING and field.default_factory is MISSING
