"""The fixed words of a plan, and the nearest one to a word that is not among them."""

from collections.abc import Iterable
from difflib import get_close_matches
from enum import Enum
from typing import TypeVar

from baycue.swing.swing import CheckpointName

E = TypeVar("E", bound=Enum)

_SHORTHAND = {
    "p1": CheckpointName.ADDRESS,
    "p4": CheckpointName.TOP,
    "p7": CheckpointName.IMPACT,
    "p10": CheckpointName.FINISH,
}


def guess(word: str, allowed: Iterable[str]) -> str:
    """``; did you mean "x"?`` for the nearest allowed word, or nothing."""
    by_lower = {a.lower(): a for a in allowed}
    near = get_close_matches(word.lower(), by_lower, n=1, cutoff=0.5)
    return f'; did you mean "{by_lower[near[0]]}"?' if near else ""


def refuse(word: str, what: str, allowed: Iterable[str]) -> ValueError:
    """The error for a word that is none of the allowed ones."""
    words = list(allowed)
    return ValueError(
        f'"{word}" is not a known {what}; allowed: {", ".join(words)}{guess(word, words)}'
    )


def choose(word: str, kind: type[E], what: str) -> E:
    """The member of ``kind`` whose value is ``word``, case aside; ValueError otherwise."""
    for member in kind:
        if member.value.lower() == word.strip().lower():
            return member
    raise refuse(word, what, (m.value for m in kind))


def checkpoint_words() -> list[str]:
    """Every word that names a checkpoint in a plan."""
    return [*(name.value for name in CheckpointName), *(word.upper() for word in _SHORTHAND)]


def choose_checkpoint(word: str) -> CheckpointName:
    """A checkpoint by its name or by its shorthand (P1, P4, P7, P10); ValueError otherwise."""
    short = _SHORTHAND.get(word.strip().lower())
    return short or choose(word, CheckpointName, "checkpoint")


def check_order(start: CheckpointName, end: CheckpointName) -> None:
    """A change and a span run from an earlier checkpoint to a later one; else ValueError."""
    order = list(CheckpointName)
    if order.index(end) <= order.index(start):
        raise ValueError(
            f'"{end.value}" does not come after "{start.value}"; '
            f"the order is {', '.join(name.value for name in order)}"
        )
