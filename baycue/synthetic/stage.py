"""Everything about a shot that does not change while it is taken."""

from dataclasses import dataclass

import numpy as np

from baycue.plan.stance import Handedness
from baycue.synthetic.camera import Camera
from baycue.synthetic.clothes import Dressed
from baycue.synthetic.figure import figure_facets, joined, to_bay
from baycue.synthetic.light import BRIGHT, Lighting
from baycue.synthetic.painter import Facets, LinearColours
from baycue.synthetic.props import STEEL_IRON, ClubLook, ball_facets, club_facets
from baycue.synthetic.scene import ClubPose, FloatArray, Moment
from baycue.synthetic.shadow import darken


@dataclass(frozen=True, slots=True, eq=False)
class Stage:
    """Who stands where in what light.

    ``backdrop``: (height, width, 3) linear light of the empty bay, from ``backdrop.backdrop``.
    """

    camera: Camera
    golfer: Dressed
    backdrop: LinearColours
    lighting: Lighting = BRIGHT
    handedness: Handedness = Handedness.RIGHT
    club_look: ClubLook = STEEL_IRON
    walker: Dressed | None = None

    def people(self, moment: Moment) -> Facets:
        """Facets of everyone in the bay at a moment."""
        cast = [(self.golfer, moment.bones), (self.walker or self.golfer, moment.walker)]
        return joined(
            Facets(np.zeros((0, 4, 3)), np.zeros((0, 3))),
            *(
                figure_facets(who, bones, self.camera, self.lighting, self.handedness)
                for who, bones in cast
                if bones is not None
            ),
        )

    def props(self, club: ClubPose | None, ball_m: FloatArray | None) -> list[Facets]:
        """Facets of club and ball: one group if they are close, else two."""
        things = []
        if club is not None:
            held = self._in_bay(club)
            things.append(club_facets(held, self.club_look, self.camera, self.lighting))
        if ball_m is not None:
            things.append(ball_facets(to_bay(ball_m, self.handedness), self.lighting))
        touching = club is not None and ball_m is not None and _near(club.head_m, ball_m)
        return [joined(*things)] if touching else things

    def _in_bay(self, club: ClubPose) -> ClubPose:
        return ClubPose(
            to_bay(club.butt_m, self.handedness),
            to_bay(club.head_m, self.handedness),
            to_bay(club.face_normal, self.handedness),
        )

    def floor_light(self, moment: Moment) -> LinearColours:
        """A copy of the empty bay with everyone's shadow on it."""
        light = self.backdrop.copy()
        cast = [(self.golfer, moment.bones), (self.walker or self.golfer, moment.walker)]
        for who, bones in cast:
            if bones is not None:
                darken(light, who, bones, self.camera, self.lighting, self.handedness)
        return light


def _near(first_m: FloatArray, second_m: FloatArray) -> bool:
    return bool(np.linalg.norm(first_m - second_m) < 0.3)
