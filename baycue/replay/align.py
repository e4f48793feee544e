"""Two swings beside each other, checkpoint by checkpoint rather than second by second."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from baycue.swing.swing import CheckpointName

_LEAST_APART_NS = 1


@dataclass(frozen=True, slots=True)
class Alignment:
    """The same moments of two swings, in order of time in both, at least one."""

    here_ns: tuple[int, ...]
    there_ns: tuple[int, ...]

    def there(self, time_ns: float) -> float:
        """The other swing's time that goes with one of this.

        Between two shared checkpoints in proportion; before the first and after the last both
        clocks run alike.
        """
        if time_ns <= self.here_ns[0]:
            return self.there_ns[0] + time_ns - self.here_ns[0]
        if time_ns >= self.here_ns[-1]:
            return self.there_ns[-1] + time_ns - self.here_ns[-1]
        # Counted from the first, since whole clock readings have more digits than a float.
        here = np.array(self.here_ns) - self.here_ns[0]
        there = np.array(self.there_ns) - self.there_ns[0]
        return self.there_ns[0] + float(np.interp(time_ns - self.here_ns[0], here, there))


def aligned(
    here_ns: Mapping[CheckpointName, int], there_ns: Mapping[CheckpointName, int]
) -> Alignment:
    """By the checkpoints that both have; ValueError if they share none.

    A checkpoint out of order in either (address and takeaway may coincide) is left out.
    """
    shared = [name for name in CheckpointName if name in here_ns and name in there_ns]
    kept: list[CheckpointName] = []
    for name in shared:
        if not kept or (
            here_ns[name] - here_ns[kept[-1]] >= _LEAST_APART_NS
            and there_ns[name] - there_ns[kept[-1]] >= _LEAST_APART_NS
        ):
            kept.append(name)
    if not kept:
        raise ValueError("the two swings share no checkpoint")
    return Alignment(tuple(here_ns[name] for name in kept), tuple(there_ns[name] for name in kept))
