"""With a microphone: was a ball struck, and when?  Told a little after the verdict."""

import time
from dataclasses import dataclass
from typing import Protocol

from baycue.cues.reconnect import finishes
from baycue.ear.impact import Hearing, Impact, Struck
from baycue.ear.microphone import listen_for
from baycue.ear.ring import Sound
from baycue.swing.swing import Checkpoint

_WAIT_NS = 600_000_000
"""After impact: by then the strike's sound has come, also from far away and through a slow card."""


class Listener(Protocol):
    """An open microphone."""

    hearing: Hearing

    @property
    def is_alive(self) -> bool:
        """Whether sound still comes."""

    def last(self) -> Sound:
        """The newest sound, two seconds of it."""

    def close(self) -> None:
        """Let go of the device; with one that is gone this may never return."""


@dataclass(frozen=True, slots=True)
class HeardSwing:
    """A swing's impact by eye and ear; ``seen_ns``: by eye alone."""

    number: int
    seen_ns: int
    impact: Impact

    @property
    def words(self) -> str:
        """For the golfer; nothing if nothing is known."""
        told = {
            Struck.BALL: "Ball struck",
            Struck.PRACTICE: "Practice swing, not counted",
            Struck.UNKNOWN: "",
        }
        return told[self.impact.struck]

    @property
    def line(self) -> str:
        """One line for a terminal."""
        later_ms = (self.impact.time_ns - self.seen_ns) / 1e6
        what = {
            Struck.BALL: f"ball struck, impact {later_ms:+.1f} ms from where it was seen, give or "
            f"take {self.impact.sigma_ns / 1e6:.1f} ms",
            Struck.PRACTICE: "no strike heard: a practice swing, not counted",
            Struck.UNKNOWN: "the microphone heard nothing of the time of impact",
        }
        return f"swing {self.number}: {what[self.impact.struck]}"


class Listening:
    """Used by the main thread, but for ``seen``, which the analysis calls."""

    def __init__(self, microphone: Listener | None) -> None:
        self._microphone = microphone
        self._waiting: tuple[int, Checkpoint] | None = None
        self._heard: HeardSwing | None = None

    @property
    def words(self) -> str | None:
        """On the newest swing, for the golfer; None if nothing is known of it."""
        heard = self._heard
        return heard.words or None if heard else None

    def seen(self, number: int, impact: Checkpoint | None) -> None:
        """A swing's impact was seen."""
        self._heard = None
        self._waiting = (number, impact) if self._microphone and impact else None

    def heard(self, now_ns: int | None = None) -> HeardSwing | None:
        """What was heard of the newest swing, once, when it is time."""
        now_ns = time.monotonic_ns() if now_ns is None else now_ns
        waiting = self._waiting
        if waiting is None or self._microphone is None or now_ns < waiting[1].time_ns + _WAIT_NS:
            return None
        self._waiting = None
        number, seen = waiting
        sound = self._microphone.last() if self._microphone.is_alive else None
        impact = listen_for(sound, self._microphone.hearing, seen.time_ns, seen.sigma_ns)
        self._heard = HeardSwing(number, seen.time_ns, impact)
        return self._heard

    def close(self) -> None:
        """Let go of the microphone; never waits for a dead one."""
        if self._microphone is not None:
            finishes(self._microphone.close)
