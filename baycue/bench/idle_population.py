"""A random population of clips without a swing, each drawn from a seed and its number.

Bodies, clothes, cameras, bays and light are drawn as for swings (``population``); the clips are
smaller and slower, to be affordable.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from baycue.bench.idle_activities import ACTIVITIES, Cast
from baycue.bench.population import Draw, Walker, draw
from baycue.bench.staging import shot_of
from baycue.synthetic.clip import Shot
from baycue.synthetic.motion import Motion
from baycue.synthetic.swing_motion import SwingMotion

WIDTH_PX, HEIGHT_PX, FPS = 640, 360, 25.0
"""The pose model itself looks at crops of 224 and 256 px; fewer frames are refused as too few."""

SECONDS = (20.0, 38.0)
_COMPANY_SEED, _ACTIVITY_SEED = 101, 102


@dataclass(frozen=True, slots=True)
class IdleDraw:
    """One clip: what is done for about how long, and who is seen how, as for a swing."""

    activity: str
    about_s: float
    drawn: Draw

    @property
    def number(self) -> int:
        """Which of the population."""
        return self.drawn.number


@dataclass(frozen=True, slots=True)
class IdleClip:
    """What to render."""

    shot: Shot
    motion: Motion


def idle_draw(seed: int, number: int) -> IdleDraw:
    """The clip of that number in the population of that seed; activities take turns."""
    drawn = draw(seed, number, {FPS: 1.0})
    camera = replace(drawn.camera, width_px=WIDTH_PX, height_px=HEIGHT_PX)
    rng = np.random.default_rng([seed, number, _COMPANY_SEED])
    somebody = draw(seed + 1, int(rng.integers(10_000)), {FPS: 1.0}).golfer
    company = Walker(somebody, 0.0, 0.0, 0.0, 0.0)
    about_s = float(rng.uniform(*SECONDS))
    activity = list(ACTIVITIES)[number % len(ACTIVITIES)]
    return IdleDraw(activity, about_s, replace(drawn, camera=camera, walker=company))


def idle_draws(seed: int, minutes: float) -> Iterator[IdleDraw]:
    """As many clips as last about so long."""
    number, left_s = 0, 60 * minutes
    while left_s > 0:
        one = idle_draw(seed, number)
        yield one
        number, left_s = number + 1, left_s - one.about_s


def idle_clip(one: IdleDraw) -> IdleClip:
    """Put a draw on the stage."""
    shot = shot_of(one.drawn)
    swing = SwingMotion(shot.body, replace(one.drawn.style, waggles=0))
    assert shot.walker_body is not None, "an idle draw always names some company"
    rng = np.random.default_rng([one.drawn.seed, one.number, _ACTIVITY_SEED])
    cast = Cast(swing, shot.walker_body)
    return IdleClip(shot, ACTIVITIES[one.activity](rng, cast, one.about_s))
