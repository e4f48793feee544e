"""What goes on in a bay that is no swing: by name, each for about as long as told."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from baycue.bench import idle_parts as parts
from baycue.bench.idle_parts import Part, Random, chance, even
from baycue.synthetic.idle_motion import regroup
from baycue.synthetic.motion import Motion, OneAfterAnother
from baycue.synthetic.scene import Body
from baycue.synthetic.stretches import idling
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.swing_style import SwingStyle
from baycue.synthetic.visit import Nobody, Visit
from baycue.synthetic.walk import Onlooker, Walk, WithWalker

BY_THE_WALL_M = -4.2
"""Where people come from and go to."""


@dataclass(frozen=True, slots=True)
class Cast:
    """The golfer, by a swing that is never made, and who else may come."""

    golfer: SwingMotion
    company: Body


Activity = Callable[[Random, Cast, float], Motion]


def _mixed(*choice: Part) -> Activity:
    """Pieces at random, with a still moment now and then, until it is long enough."""

    def pieces(rng: Random, swing: SwingMotion) -> Iterator[Motion]:
        yield parts.still(rng, swing)
        while True:
            yield choice[int(rng.integers(len(choice)))](rng, swing)
            if chance(rng):
                yield parts.still(rng, swing)

    return lambda rng, cast, seconds: _filled(pieces(rng, cast.golfer), seconds)


def _filled(pieces: Iterator[Motion], seconds: float) -> Motion:
    done = [next(pieces)]
    while sum(piece.duration_s for piece in done) < seconds:
        done.append(next(pieces))
    return OneAfterAnother(tuple(done))


def _with_club(rng: Random, swing: SwingMotion) -> Motion:
    return parts.stretch(rng, swing, True)


def _without_club(rng: Random, swing: SwingMotion) -> Motion:
    return parts.stretch(rng, swing, False)


def _stretching(stretch: Part) -> Activity:
    def pieces(rng: Random, swing: SwingMotion) -> Iterator[Motion]:
        while True:
            yield stretch(rng, swing)

    return lambda rng, cast, seconds: _filled(pieces(rng, cast.golfer), seconds)


def _after_a_finish(rng: Random, cast: Cast, seconds: float) -> Motion:
    """As after a swing that was not filmed: from the finish back to the ball, and on."""
    back = regroup(cast.golfer, cast.golfer, even(rng, 2.0, 3.5))
    return OneAfterAnother((back, _ADDRESSED(rng, cast, seconds - back.duration_s)))


def _visiting(rng: Random, cast: Cast, seconds: float) -> Motion:
    """In, a short stay facing the camera, and out, again and again."""

    def pieces() -> Iterator[Motion]:
        while True:
            walk = Walk(cast.golfer.body, even(rng, -0.5, 0.3), BY_THE_WALL_M, even(rng, 0.9, 1.4))
            yield Visit(cast.golfer, walk, even(rng, 0.5, 2.0), even(rng, 2.0, 7.0))

    return _filled(pieces(), seconds)


def _empty(rng: Random, cast: Cast, seconds: float) -> Motion:
    return Nobody(cast.golfer, seconds, chance(rng))


def _passed_by(rng: Random, cast: Cast, seconds: float) -> Motion:
    """Somebody walks by behind while the golfer waggles or rehearses."""
    forward = 1.0 if chance(rng) else -1.0
    speed = forward * even(rng, 0.9, 1.5)
    walk = Walk(cast.company, even(rng, -2.3, -1.4), forward * BY_THE_WALL_M, speed)
    return WithWalker(_ADDRESSED(rng, cast, seconds), walk, even(rng, 2.0, 8.0))


def _watched(rng: Random, cast: Cast, seconds: float) -> Motion:
    """Somebody stands behind, to one side, looking on."""
    side = 1.0 if chance(rng) else -1.0
    place_m = np.array([side * even(rng, 0.7, 1.7), 0.0, even(rng, -2.2, -1.5)])
    onlooker = Onlooker(idling(SwingMotion(cast.company, SwingStyle())), place_m)
    return WithWalker(_ADDRESSED(rng, cast, seconds), onlooker)


_ADDRESSED = _mixed(parts.waggle, parts.stop, parts.rehearse, parts.half)

ACTIVITIES: dict[str, Activity] = {
    "waggles": _mixed(parts.waggle),
    "teeing a ball": _mixed(parts.tee, parts.waggle),
    "half swings": _mixed(parts.half),
    "stretching": _stretching(_without_club),
    "walking in and out": _visiting,
    "practice chips": _mixed(parts.chip),
    "stops and rehearsals": _mixed(parts.stop, parts.rehearse),
    "someone walks by": _passed_by,
    "stretching with a club": _stretching(_with_club),
    "club overhead from address": _mixed(parts.overhead_from_address),
    "leaning on the club": _mixed(parts.lean),
    "someone stands behind": _watched,
    "empty bay": _empty,
    "picking up a ball": _mixed(parts.pick, parts.waggle),
    "back from a finish": _after_a_finish,
}
