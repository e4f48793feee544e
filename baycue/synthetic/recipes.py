"""Recipes of the sample recordings: invented golfers, each clip reproducible by name."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from baycue.synthetic.bay import BAYS
from baycue.synthetic.body import load_body
from baycue.synthetic.camera import Camera
from baycue.synthetic.clip import Shot
from baycue.synthetic.clothes import COLOURWAYS
from baycue.synthetic.idle_motion import regroup, tee_a_ball
from baycue.synthetic.motion import Motion, OneAfterAnother, practice_stop, rehearsal, waggles
from baycue.synthetic.props import GRAPHITE_IRON, STEEL_IRON, ClubLook
from baycue.synthetic.scene import Body
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.swing_style import SwingStyle
from baycue.synthetic.walk import Walk, WithWalker


@dataclass(frozen=True, slots=True)
class Golfer:
    """An invented golfer: a body, a stature, clothes and a club's look."""

    body: str = "adult_male"
    stature_m: float = 1.78
    clothes: str = "blue_and_grey"
    club_look: ClubLook = STEEL_IRON

    def load(self) -> Body:
        """The body at this stature."""
        return load_body(self.body, self.stature_m)


FIRST = Golfer()
SECOND = Golfer("adult_female", 1.66, "teal_and_white", GRAPHITE_IRON)
THIRD = Golfer("older_heavy_male", 1.75, "red_and_khaki")
FOURTH = Golfer("adult_male", 1.85, "white_and_black", GRAPHITE_IRON)

FACE_ON = Camera(distance_m=3.6, height_m=0.95, field_of_view_deg=70.0)


@dataclass(frozen=True, slots=True)
class Recipe:
    """One recording.

    ``shows``: in a sentence, what there is to see.  ``swings``: styles of the full swings,
    with a regroup between.  ``idle``: what is done instead of or before a swing, in order:
    "waggles", "practice stop", "rehearsal" or "tee".  ``walker``: someone walks by behind.
    """

    name: str
    shows: str
    golfer: Golfer = FIRST
    swings: tuple[SwingStyle, ...] = ()
    idle: tuple[str, ...] = ()
    camera: Camera = FACE_ON
    bay: str = "plain"
    fps: float = 30.0
    shutter_s: float = 1 / 120
    mirrored: bool = False
    walker: Golfer | None = None
    crf: int = 18

    def shot(self) -> Shot:
        """How it is taken."""
        walker = self.walker
        return Shot(
            body=self.golfer.load(),
            camera=self.camera,
            bay=BAYS[self.bay],
            clothes=COLOURWAYS[self.golfer.clothes],
            club_look=self.golfer.club_look,
            fps=self.fps,
            shutter_s=self.shutter_s,
            mirrored=self.mirrored,
            walker_body=None if walker is None else walker.load(),
            walker_clothes=COLOURWAYS["blue_and_grey" if walker is None else walker.clothes],
        )

    def motion(self) -> Motion:
        """What happens in it."""
        body = self.golfer.load()
        style = self.swings[0] if self.swings else SwingStyle()
        parts = [_idle(body, style, name) for name in self.idle]
        swings = [SwingMotion(body, style) for style in self.swings]
        for number, swing in enumerate(swings):
            if number:
                parts.append(regroup(swings[number - 1], swing))
            parts.append(swing)
        motion: Motion = parts[0] if len(parts) == 1 else OneAfterAnother(tuple(parts))
        if self.walker is None:
            return motion
        return WithWalker(motion, Walk(self.walker.load(), z_m=-1.5, from_x_m=-3.6), 1.0)


def _idle(body: Body, style: SwingStyle, name: str) -> Motion:
    swing = SwingMotion(body, replace(style, waggles=2 if name == "waggles" else 0))
    return IDLE[name](swing)


IDLE: dict[str, Callable[[SwingMotion], Motion]] = {
    "waggles": waggles,
    "practice stop": practice_stop,
    "rehearsal": rehearsal,
    "tee": tee_a_ball,
}
