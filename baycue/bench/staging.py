"""A draw made flesh: the shot, the motion and the truth."""

from dataclasses import dataclass, replace

from baycue.bench.population import Draw
from baycue.synthetic.bay import BAYS
from baycue.synthetic.clip import Shot
from baycue.synthetic.motion import Motion
from baycue.synthetic.recipes import Recipe
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.truth import TrueSwing, true_swing
from baycue.synthetic.walk import Walk, WithWalker

AFTER_IMPACT_S = 0.45
"""Frames beyond this are not rendered: the verdict does not look so far."""


@dataclass(frozen=True, slots=True)
class Staged:
    """What to render, how long, and what is true in it.

    ``still_until_s``: until then nothing at all moves.
    """

    shot: Shot
    motion: Motion
    duration_s: float
    still_until_s: float
    truth: TrueSwing


def staged(draw: Draw) -> Staged:
    """Put a draw on the stage."""
    shot = shot_of(draw)
    swing = SwingMotion(shot.body, draw.style)
    motion: Motion = swing
    if draw.walker is not None:
        walker = draw.walker
        walk = Walk(walker.person.load(), walker.z_m, walker.from_x_m, walker.speed_m_s)
        motion = WithWalker(swing, walk, walker.start_s)
    still_until_s = swing.phases.start_s if draw.walker is None else 0.0
    duration_s = swing.phases.impact_s + AFTER_IMPACT_S
    return Staged(shot, motion, duration_s, still_until_s, true_swing(swing))


def shot_of(draw: Draw) -> Shot:
    """How a draw is filmed."""
    recipe = Recipe(
        name=f"swing {draw.number}",
        shows="drawn at random",
        golfer=draw.golfer,
        camera=draw.camera,
        fps=draw.fps,
        shutter_s=draw.shutter_s,
        mirrored=draw.mirrored,
        walker=None if draw.walker is None else draw.walker.person,
    )
    bay = BAYS[draw.bay]
    lit = replace(bay, lighting=replace(bay.lighting, level=draw.light_level))
    return replace(recipe.shot(), bay=lit, seed=1 + draw.number)
