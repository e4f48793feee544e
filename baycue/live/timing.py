"""Where the time between impact and answer goes, swing by swing."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SwingTiming:
    """Moments of one swing on the host's monotonic clock, ns, in the order they come.

    ``impact_ns``: stamp of the first frame at or after impact.  ``trigger_ns``: stamp of the
    frame that gave the swing away.  ``seen_ns``: its pose was found.  ``begun_ns``: the scoring
    began, early looks left off.  ``filled_ns``: frames the pose model had skipped were added.
    ``scored_ns``: the verdict was there.  ``frames`` and ``posed``: of this swing, and those of
    them the pose model looked at.
    """

    impact_ns: int
    trigger_ns: int
    seen_ns: int
    begun_ns: int
    filled_ns: int
    scored_ns: int
    frames: int
    posed: int

    @property
    def split_ms(self) -> dict[str, float]:
        """Milliseconds spent on each step up to the verdict."""
        steps = {
            "wait past impact": (self.impact_ns, self.trigger_ns),
            "decode and pose": (self.trigger_ns, self.seen_ns),
            "hand over": (self.seen_ns, self.begun_ns),
            "fill in": (self.begun_ns, self.filled_ns),
            "score": (self.filled_ns, self.scored_ns),
        }
        return {name: (end - start) / 1e6 for name, (start, end) in steps.items()}
