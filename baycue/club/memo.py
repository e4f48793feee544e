"""What has been worked out for earlier frames of a swing, so that it is not worked out again.

While a club comes down the same swing is looked at again and again, each time with a frame
more.  Every answer is remembered under all that it follows from, so that it is the same
answer, only sooner: with or without a memo a swing is read alike.
"""

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field, fields
from typing import Generic, TypeVar

from baycue.club.look import Look
from baycue.club.path import Forward
from baycue.club.refine import FloatArray, LocalFit
from baycue.club.surroundings import Surroundings

Value = TypeVar("Value")


class Memo(Generic[Value]):
    """Values by what they follow from.

    ``before_work`` is called before anything is worked out; what it raises leaves all as it was.
    """

    def __init__(self, before_work: Callable[[], None] | None = None) -> None:
        self._known: dict[Hashable, Value] = {}
        self._before_work = before_work

    def recall(self, key: Hashable, work_out: Callable[[], Value]) -> Value:
        """The value of ``key``, worked out if it is not known yet."""
        if key not in self._known:
            if self._before_work:
                self._before_work()
            self._known[key] = work_out()
        return self._known[key]


@dataclass(frozen=True, slots=True)
class ShaftMemo:
    """For one swing; a new swing wants a new one."""

    surroundings: Memo[Surroundings] = field(default_factory=Memo)
    looks: Memo[Look] = field(default_factory=Memo)
    paths: Memo[Forward] = field(default_factory=Memo)
    gains: Memo[FloatArray] = field(default_factory=Memo)
    fits: Memo[LocalFit] = field(default_factory=Memo)


def shaft_memo(before_work: Callable[[], None] | None) -> ShaftMemo:
    """A memo of which every part has ``before_work`` called."""
    return ShaftMemo(*(Memo(before_work) for _ in fields(ShaftMemo)))
