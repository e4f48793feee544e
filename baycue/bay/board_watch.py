"""Looking for the board now and then, at the beginning, until it has been seen often enough."""

from dataclasses import dataclass, replace

from baycue.bay.board import BoardSeen, Picture, find_board

_EVERY_NS = 1_000_000_000
_LOOKS_FOR_NS = 30_000_000_000
_ENOUGH = 3


@dataclass(frozen=True, slots=True)
class BoardWatch:
    """A fold over frames: the likeliest sighting so far, and when to look next.

    Looking takes as long as several poses, so it is done once a second, for half a minute or
    until the board was seen three times: then golfers swing, and no frame may be held up.
    """

    mirrored: bool = False
    best: BoardSeen | None = None
    sightings: int = 0
    first_ns: int | None = None
    next_ns: int = 0

    def after(self, stamp_ns: int, picture_bgr: Picture) -> "BoardWatch":
        """The watch after one more frame."""
        first_ns = stamp_ns if self.first_ns is None else self.first_ns
        over = self.sightings >= _ENOUGH or stamp_ns - first_ns > _LOOKS_FOR_NS
        if over or (self.first_ns is not None and stamp_ns < self.next_ns):
            return self
        looked = replace(self, first_ns=first_ns, next_ns=stamp_ns + _EVERY_NS)
        seen = find_board(picture_bgr, self.mirrored)
        return looked if seen is None else looked._with(seen)

    def _with(self, seen: BoardSeen) -> "BoardWatch":
        better = self.best is None or seen.likeness > self.best.likeness
        return replace(self, best=seen if better else self.best, sightings=self.sightings + 1)
