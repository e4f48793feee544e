"""When the phases of a swing begin."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Phases:
    """When the swing's phases begin, seconds."""

    start_s: float
    top_s: float
    p6_s: float
    impact_s: float
    p8_s: float
    finish_s: float

    def back(self, share: float) -> float:
        """A time between start and top."""
        return self.start_s + share * (self.top_s - self.start_s)

    def through(self, share: float) -> float:
        """A time between P8 and finish."""
        return self.p8_s + share * (self.finish_s - self.p8_s)

    def down(self, share: float) -> float:
        """A time between top and impact."""
        return self.top_s + share * (self.impact_s - self.top_s)
