"""What a live bay plays by itself after a verdict: the swing slowly, then its downswing."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from baycue.replay.film import SwingFilm
from baycue.replay.showing import Showing, downswing_ns, showing

PICTURES_A_SECOND = 15
"""As many are drawn at most: the golfer who walks back is still being watched meanwhile."""

_WHOLE, _DOWNSWING = 0.5, 0.125
_DOWNSWINGS = 2


@dataclass(frozen=True, slots=True)
class _Part:
    """A stretch played at a speed, ns."""

    start_ns: int
    end_ns: int
    speed: float
    is_loop: bool

    @property
    def lasts_ns(self) -> float:
        return (self.end_ns - self.start_ns) / self.speed


def shown_after(film: SwingFilm, elapsed_ns: int) -> Showing:
    """The whole swing at half speed, its downswing twice at an eighth, and so on."""
    step_ns = 10**9 // PICTURES_A_SECOND
    left = float(elapsed_ns // step_ns * step_ns)
    parts = _parts(film)
    left %= max(sum(part.lasts_ns for part in parts), 1.0)
    for part in parts:
        if left < part.lasts_ns:
            return _at(film, part, part.start_ns + left * part.speed)
        left -= part.lasts_ns
    return _at(film, parts[-1], parts[-1].end_ns)


def _parts(film: SwingFilm) -> Sequence[_Part]:
    whole = _Part(film.stamps_ns[0], film.stamps_ns[-1], _WHOLE, False)
    down = downswing_ns(film)
    return [whole] if down is None else [whole, *[_Part(*down, _DOWNSWING, True)] * _DOWNSWINGS]


def _at(film: SwingFilm, part: _Part, at_ns: float) -> Showing:
    shown = showing(film, speed=part.speed)
    loop = (part.start_ns, part.end_ns) if part.is_loop else None
    return replace(shown, player=replace(shown.player, at_ns=at_ns, loop_ns=loop))
