"""A hold judged while it lasts: how far from the window, whether inside, and for how long.

A pure fold over samples of a golfer who moves slowly or not at all; no strike is waited for.
"""

from dataclasses import dataclass, replace

import numpy as np

from baycue.measures.measurement import Unit

_RECENT_NS = 300_000_000
"""Values are medians over so long, for one frame's landmarks jump."""
_GRACE_NS = 250_000_000
"""So long outside does not end a hold."""
_LEFT_NS = 600_000_000
"""So long outside makes the next hold count."""
_GAP_NS = 700_000_000
"""So long unseen begins anew."""


@dataclass(frozen=True, slots=True)
class LiveMeasure:
    """What is measured of a golfer at rest.

    ``too_low`` and ``too_high``: what the golfer is told to do about it.
    """

    name: str
    unit: Unit
    too_low: str
    too_high: str


@dataclass(frozen=True, slots=True)
class Window:
    """The values of a measure that count, in its unit."""

    measure: LiveMeasure
    low: float
    high: float

    @property
    def half_width(self) -> float:
        """Half of it."""
        return (self.high - self.low) / 2

    def off(self, value: float) -> float:
        """How far outside, in the measure's unit: below is negative, inside is 0."""
        return min(value - self.low, 0.0) + max(value - self.high, 0.0)


@dataclass(frozen=True, slots=True)
class Reading:
    """One measure at one moment with its one-sigma."""

    measure: LiveMeasure
    value: float
    sigma: float


@dataclass(frozen=True, slots=True)
class HoldSample:
    """All measures at one moment; ``club_seen``: whether those that need the club had it."""

    stamp_ns: int
    readings: tuple[Reading, ...]
    club_seen: bool = True


@dataclass(frozen=True, slots=True)
class Guidance:
    """What the golfer is guided by: the measure that is furthest off for its window.

    ``value``, ``sigma`` and ``off`` in the measure's unit, ``off`` as ``Window.off``;
    ``windows_off``: the same in half widths of the window.  ``inside``: whether every measure is.
    ``held_s`` of ``wanted_s``.  ``counts``: the hold has just become long enough.  ``club_seen``:
    if not, lead arm and hands stand in for it, ``sigma`` is wide and nobody is inside: with the
    club out of sight a golfer at address looks much like one at P6.
    """

    measure: LiveMeasure
    window: Window
    value: float
    sigma: float
    off: float
    windows_off: float
    inside: bool
    held_s: float
    wanted_s: float
    counts: bool = False
    club_seen: bool = True

    @property
    def told(self) -> str:
        """What to do, in a few words."""
        if self.inside:
            return "hold it"
        if self.off == 0:
            return "about there"
        return self.measure.too_low if self.off < 0 else self.measure.too_high


@dataclass(frozen=True, slots=True)
class HoldState:
    """What is remembered between two samples.

    ``since_ns``: when the hold began; ``inside_ns``: when the golfer was last inside.
    ``waits``: whether the window must be left before another hold counts.
    """

    windows: tuple[Window, ...]
    wanted_s: float
    recent: tuple[HoldSample, ...] = ()
    since_ns: int | None = None
    inside_ns: int = 0
    waits: bool = False

    def after(self, sample: HoldSample | None) -> tuple["HoldState", Guidance | None]:
        """One sample on (None: nobody seen), and the guidance, None if there is none."""
        if sample is None:
            return self, None
        gap = self.recent and sample.stamp_ns - self.recent[-1].stamp_ns > _GAP_NS
        state = replace(self, recent=(), since_ns=None) if gap else self
        since_ns = sample.stamp_ns - _RECENT_NS
        recent = (*(s for s in state.recent if s.stamp_ns >= since_ns), sample)
        state = replace(state, recent=recent)
        return state._judged(sample.stamp_ns)

    def _judged(self, now_ns: int) -> tuple["HoldState", Guidance | None]:
        club_seen = 2 * sum(s.club_seen for s in self.recent) >= len(self.recent)
        alike = [s for s in self.recent if s.club_seen == club_seen]
        places = [p for w in self.windows if (p := _place(w, alike)) is not None]
        if len(places) < len(self.windows):
            return replace(self, since_ns=None), None
        state = self._timed(now_ns, club_seen and all(p.off == 0 for p in places))
        worst = max(places, key=lambda p: abs(p.windows_off))
        held_s = 0.0 if state.since_ns is None else (now_ns - state.since_ns) * 1e-9
        counts = state.since_ns is not None and held_s >= self.wanted_s and not self.waits
        guidance = replace(
            worst,
            inside=state.since_ns is not None,
            held_s=min(held_s, self.wanted_s),
            wanted_s=self.wanted_s,
            counts=counts,
            club_seen=club_seen,
        )
        return replace(state, waits=state.waits or counts), guidance

    def _timed(self, now_ns: int, inside: bool) -> "HoldState":
        if inside:
            since_ns = now_ns if self.since_ns is None else self.since_ns
            return replace(self, since_ns=since_ns, inside_ns=now_ns)
        out_ns = now_ns - self.inside_ns
        held = self.since_ns if out_ns <= _GRACE_NS else None
        return replace(self, since_ns=held, waits=self.waits and out_ns <= _LEFT_NS)


def _place(window: Window, samples: list[HoldSample]) -> Guidance | None:
    """Where the golfer is by one window, not timed yet; None if it was not measured."""
    found = [r for s in samples for r in s.readings if r.measure == window.measure]
    if not found:
        return None
    value = float(np.median([r.value for r in found]))
    sigma, off = found[-1].sigma, window.off(value)
    return Guidance(
        window.measure, window, value, sigma, off, off / window.half_width, off == 0, 0.0, 0.0
    )
