"""What the sound card's callback does, without the sound card: silence, and a tone when asked."""

from dataclasses import dataclass

from baycue.cues.tones import Samples

_CLOCKS_DISAGREE_S = 1.0


@dataclass(frozen=True, slots=True)
class Cue:
    """A tone's samples and the moment, on the stream's clock, its first sample is due."""

    samples: Samples
    due_s: float


class Playback:
    """Feeds blocks to a stream that never stops.

    ``ask`` is called by the caller's thread and ``fill`` by the sound card's; they share one
    reference.  ``fill`` allocates no buffers, so that it cannot be late for want of memory.
    """

    def __init__(self, rate_hz: int) -> None:
        self._rate_hz = rate_hz
        self._asked: Cue | None = None
        self._playing: Cue | None = None
        self._next_sample = 0

    @property
    def busy(self) -> bool:
        """Whether a tone is waiting or sounding."""
        return self._asked is not None or self._playing is not None

    def ask(self, cue: Cue) -> None:
        """Sound a cue when due, after the one sounding now; a waiting one is replaced."""
        self._asked = cue

    def fill(self, block: Samples, block_s: float) -> int | None:
        """Write the next (n,) or (n, channels) samples; ``block_s`` is when the first sounds.

        Returns the sample of the block at which a tone began, if one did.
        """
        block.fill(0)
        first, begins = 0, False
        if self._playing is None:
            first = self._start(len(block), block_s)
            begins = self._playing is not None
        if self._playing is not None:
            self._copy(self._playing.samples, block, first)
        return first if begins else None

    def _start(self, length: int, block_s: float) -> int:
        cue = self._asked
        if cue is None:
            return 0
        first = onset_in_block(cue.due_s, block_s, self._rate_hz)
        if first >= length:
            return 0
        self._asked, self._playing, self._next_sample = None, cue, 0
        return first

    def _copy(self, samples: Samples, block: Samples, first: int) -> None:
        count = min(len(block) - first, len(samples) - self._next_sample)
        part = samples[self._next_sample : self._next_sample + count]
        block[first : first + count] = part if block.ndim == 1 else part[:, None]
        self._next_sample += count
        if self._next_sample == len(samples):
            self._playing = None


def onset_in_block(due_s: float, block_s: float, rate_hz: int) -> int:
    """Samples into the block at which a cue is due: 0 if late, past the block if it can wait.

    Some drivers leave the block's time at zero or on another clock; then the cue starts at once.
    """
    wait_s = due_s - block_s
    if block_s <= 0 or not 0 < wait_s < _CLOCKS_DISAGREE_S:
        return 0
    return round(wait_s * rate_hz)
