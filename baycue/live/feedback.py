"""When a verdict is told: at once, after a while, or when the golfer asks.

A pure schedule: times are handed in.
"""

import re
from dataclasses import dataclass, replace
from enum import Enum

from baycue.practice.summary import Summary
from baycue.verdict.verdict import SwingVerdict

_LONGEST_DELAY_S = 30.0


class When(Enum):
    """The coach's choice."""

    AT_ONCE = "at-once"
    DELAY = "delay"
    ON_REQUEST = "on-request"


@dataclass(frozen=True, slots=True)
class FeedbackMode:
    """When, and for a delay how many seconds after the verdict is known."""

    when: When = When.AT_ONCE
    delay_s: float = 0.0

    def is_due(self, verdict_ns: int, now_ns: int, requested: bool) -> bool:
        """Whether a verdict known since ``verdict_ns`` is to be told now.

        Asking never hurts: a request is answered in every mode.
        """
        if requested or self.when is When.AT_ONCE:
            return True
        return self.when is When.DELAY and now_ns - verdict_ns >= self.delay_s * 1e9


def feedback_mode(text: str) -> FeedbackMode:
    """Read ``at-once``, ``delay:3`` (seconds) or ``on-request``; ValueError otherwise."""
    word, _, seconds = text.strip().lower().partition(":")
    if word == When.DELAY.value and re.fullmatch(r"\d+(\.\d+)?", seconds):
        if not 0 < float(seconds) <= _LONGEST_DELAY_S:
            raise ValueError(f'"{text}": a delay is over 0 and up to {_LONGEST_DELAY_S:g} s')
        return FeedbackMode(When.DELAY, float(seconds))
    if not seconds and word in (When.AT_ONCE.value, When.ON_REQUEST.value):
        return FeedbackMode(When(word))
    raise ValueError(f'"{text}" is no feedback mode; allowed: at-once, delay:SECONDS, on-request')


Answerable = SwingVerdict | Summary
"""What the golfer can be told of: one swing, or some together."""


@dataclass(frozen=True, slots=True)
class Pending:
    """At most one answer that is known and not told yet; a newer one takes its place.

    ``if_asked``: it waits to be asked for, whatever the mode says.
    """

    mode: FeedbackMode
    answer: Answerable | None = None
    known_ns: int = 0
    if_asked: bool = False

    @property
    def waits(self) -> bool:
        """Whether there is an answer for the golfer to ask for."""
        asked_for = self.if_asked or self.mode.when is When.ON_REQUEST
        return asked_for and self.answer is not None

    def with_answer(self, answer: Answerable, now_ns: int, if_asked: bool = False) -> "Pending":
        """An answer has become known."""
        return replace(self, answer=answer, known_ns=now_ns, if_asked=if_asked)

    def told(self, now_ns: int, requested: bool = False) -> tuple["Pending", Answerable | None]:
        """What is to be told now, if anything, and what then remains."""
        mode = FeedbackMode(When.ON_REQUEST) if self.if_asked else self.mode
        if self.answer is None or not mode.is_due(self.known_ns, now_ns, requested):
            return self, None
        return replace(self, answer=None), self.answer
