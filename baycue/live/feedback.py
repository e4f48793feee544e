"""When a verdict is told: at once, after a while, or when the golfer asks.

A pure schedule: times are handed in.
"""

import re
from dataclasses import dataclass, replace
from enum import Enum

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


@dataclass(frozen=True, slots=True)
class Pending:
    """At most one verdict that is known and not told yet; a newer one takes its place."""

    mode: FeedbackMode
    verdict: SwingVerdict | None = None
    known_ns: int = 0

    def with_verdict(self, verdict: SwingVerdict, now_ns: int) -> "Pending":
        """A verdict has become known."""
        return replace(self, verdict=verdict, known_ns=now_ns)

    def told(self, now_ns: int, requested: bool = False) -> tuple["Pending", SwingVerdict | None]:
        """What is to be told now, if anything, and what then remains."""
        if self.verdict is None or not self.mode.is_due(self.known_ns, now_ns, requested):
            return self, None
        return replace(self, verdict=None), self.verdict
