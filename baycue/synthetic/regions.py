"""Which part of a body at rest wears what: seams as levels, regions as choices of quads."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.body import parts
from baycue.synthetic.scene import Body, FloatArray
from baycue.synthetic.seams import Seams
from baycue.synthetic.tailor import cut

Chosen = NDArray[np.bool_]


def sewn(body: Body) -> Body:
    """The body cut along all seams; suit above the collar and skin under it taken away."""
    seams = Seams(body)
    arms = ("suit_upperarm", "suit_lowerarm", "suit_torso")
    for level, names in (
        (seams.collar, ("suit_neck", "suit_torso", "suit_head")),
        (seams.belt_top, ("suit_torso", "suit_pelvis", "suit_thigh")),
        (seams.belt_foot, ("suit_torso", "suit_pelvis", "suit_thigh")),
        (seams.hem, ("suit_foot", "suit_calf")),
        (seams.sleeve("_l"), tuple(f"{a}_l" for a in arms)),
        (seams.sleeve("_r"), tuple(f"{a}_r" for a in arms)),
        (seams.glove, ("bare_hand_l", "bare_lowerarm_l")),
        (seams.cap, ("bare_head",)),
        (seams.hair, ("bare_head",)),
    ):
        body = cut(body, level(body.vertices_m), parts(body, *names))
    body = cut(body, seams.buckle(body.vertices_m), Regions(body).belt)
    return _without_hidden(body, seams)


def _without_hidden(body: Body, seams: Seams) -> Body:
    height = seams.collar(body.vertices_m[body.quads].mean(axis=1))
    above = parts(body, "suit_neck", "suit_torso", "suit_head") & (height > 0)
    under = parts(body, "bare_neck", "bare_torso") & (height < -0.007 * body.stature_m)
    kept = ~(above | under)
    return replace(body, quads=body.quads[kept], quad_parts=body.quad_parts[kept])


class Regions:
    """Which (Q,) quads of a sewn body wear what."""

    def __init__(self, body: Body) -> None:
        self.body = body
        self.seams = Seams(body)
        self.middle: FloatArray = body.vertices_m[body.quads].mean(axis=1)

    @property
    def suit(self) -> Chosen:
        """All that is not bare."""
        return parts(self.body, "suit")

    @property
    def shoes(self) -> Chosen:
        """Below the trousers' hem."""
        return parts(self.body, "suit_foot", "suit_calf") & (self.seams.hem(self.middle) < 0)

    @property
    def trousers(self) -> Chosen:
        """From the belt down."""
        arms = parts(self.body, "suit_upperarm", "suit_lowerarm")
        low = self.seams.belt_top(self.middle) < 0
        return np.asarray(self.suit & ~self.shoes & ~arms & low)

    @property
    def belt(self) -> Chosen:
        """A band about the waist, buckle included."""
        band = (self.seams.belt_top(self.middle) < 0) & (self.seams.belt_foot(self.middle) > 0)
        return np.asarray(parts(self.body, "suit_torso", "suit_pelvis", "suit_thigh") & band)

    @property
    def buckle(self) -> Chosen:
        """The middle of the belt in front."""
        front = self.middle[:, 2] > self.seams.joint("spine_01")[2]
        return np.asarray(self.belt & front & (self.seams.buckle(self.middle) < 0))

    @property
    def forearms(self) -> Chosen:
        """Arms below short sleeves."""
        low = parts(self.body, "suit_lowerarm")
        for side in ("_l", "_r"):
            beyond = self.seams.sleeve(side)(self.middle) > 0
            low |= parts(self.body, "suit_upperarm" + side) & beyond
        return low

    @property
    def glove(self) -> Chosen:
        """The lead hand."""
        return parts(self.body, "bare_hand_l") & (self.seams.glove(self.middle) > 0)

    @property
    def cap(self) -> Chosen:
        """What a cap covers."""
        return parts(self.body, "bare_head") & (self.seams.cap(self.middle) > 0)

    @property
    def hair(self) -> Chosen:
        """The scalp, ears left free."""
        size, eyes = self.seams.size_m, self.seams.eyes_m
        ears = np.abs(self.middle[:, 0]) > 0.0445 * size
        low = self.middle[:, 1] - eyes[1] < 0.012 * size
        scalp = self.seams.hair(self.middle) > 0
        return np.asarray(parts(self.body, "bare_head") & scalp & ~(ears & low))

    @property
    def brows(self) -> Chosen:
        """Two strips above the eyes."""
        size = self.seams.size_m
        x, y, z = (self.middle - self.seams.eyes_m).T / size
        strip = (y > 0.0085) & (y < 0.0135) & (np.abs(x) > 0.008) & (np.abs(x) < 0.029)
        return np.asarray(parts(self.body, "bare_head") & strip & (z > -0.006))

    @property
    def irises(self) -> Chosen:
        """The dark middle of each eye."""
        chosen = np.zeros(len(self.middle), bool)
        for side in (self.middle[:, 0] > 0, self.middle[:, 0] < 0):
            eye = parts(self.body, "eye") & side
            ball = self.middle[eye]
            centre = (ball.min(axis=0) + ball.max(axis=0)) / 2
            off = np.linalg.norm((self.middle - centre)[:, :2], axis=1)
            chosen |= eye & (off < 0.25 * np.ptp(ball[:, 0])) & (self.middle[:, 2] > centre[2])
        return chosen
