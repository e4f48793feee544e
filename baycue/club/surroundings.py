"""What the club is seen against: the still bay, and the stretch of shaft to look along."""

from dataclasses import dataclass

import numpy as np

from baycue.club.background import StillBackground, still_background
from baycue.club.scene import ClubScene
from baycue.club.unwrap import Reach, loudest_smear

_INNER_BODIES, _OUTER_BODIES = 0.17, 0.58
_MOVED_BODIES = 0.12
_MOST_SAMPLES = 15


@dataclass(frozen=True, slots=True, eq=False)
class Surroundings:
    """The still bay and the stretch of shaft looked at."""

    background: StillBackground
    reach: Reach

    @property
    def loudest_smear(self) -> float:
        """As ``unwrap.loudest_smear`` of the bay's flicker."""
        return loudest_smear(self.background.flicker)


def surroundings_of(scene: ClubScene) -> Surroundings:
    """From the backswing alone, so that it is there before the club comes down."""
    reach = Reach(_INNER_BODIES * scene.body_px, _OUTER_BODIES * scene.body_px)
    return Surroundings(still_background([scene.greys[k] for k in _well_spread(scene)]), reach)


def _well_spread(scene: ClubScene) -> list[int]:
    """Frames of the backswing from when the hands have left the ball, even by their way.

    At rest at the ball, or in a pause at the top, the club would be background.
    """
    hands = scene.hands_px[scene.going_back]
    moved = np.abs(hands - hands[0]).max(axis=1) > _MOVED_BODIES * scene.body_px
    first = int(np.argmax(moved)) if moved.any() else 0
    steps = np.linalg.norm(np.diff(hands[first:], axis=0), axis=1)
    way = np.concatenate([[0.0], np.cumsum(steps)])
    wanted = np.linspace(0.0, way[-1], min(_MOST_SAMPLES, len(way)))
    return [first + int(np.argmin(np.abs(way - w))) for w in wanted]
