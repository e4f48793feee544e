"""Clothes: which quad is shirt, trousers, skin or hair, and how loose the cloth hangs."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.body import PART_NAMES
from baycue.synthetic.headwear import Added, cap_brim, ponytail
from baycue.synthetic.light import colour
from baycue.synthetic.scene import Body, FloatArray

Chosen = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Clothes:
    """One colourway; colours are written ``#rrggbb``."""

    skin: str = "#c68e6f"
    hair: str = "#3a2a20"
    shirt: str = "#2f6f9f"
    trousers: str = "#3b3f46"
    shoes: str = "#e8e8e4"
    belt: str = "#1d1a18"
    buckle: str = "#c9c4b4"
    glove: str = "#f2f2ee"
    cap: str | None = "#f4f4f0"
    long_sleeves: bool = False
    long_hair: bool = False


BLUE_AND_GREY = Clothes()

COLOURWAYS: dict[str, Clothes] = {
    "blue_and_grey": BLUE_AND_GREY,
    "white_and_black": Clothes(
        skin="#8a5a3c", hair="#141110", shirt="#ecece6", trousers="#26282c", cap="#22324a"
    ),
    "red_and_khaki": Clothes(
        skin="#d9a98a", hair="#8d8a86", shirt="#a8323a", trousers="#b5a27c", cap="#b8323a"
    ),
    "green_and_navy": Clothes(
        skin="#b87f5c", hair="#54381f", shirt="#3d8a5f", trousers="#27324d", cap=None
    ),
    "teal_and_white": Clothes(
        skin="#dcae90",
        hair="#5b3a22",
        shirt="#28838a",
        trousers="#d9d7cf",
        shoes="#5a6470",
        cap="#f0f0ec",
        long_hair=True,
    ),
    "grey_long_sleeves": Clothes(
        skin="#c99877", hair="#2b2320", shirt="#8b9299", trousers="#30343f", long_sleeves=True
    ),
}
"""Invented colourways by plain name."""


@dataclass(frozen=True, slots=True, eq=False)
class Dressed:
    """A body with its clothes on.

    ``body`` has the cloth's shape and the cap's extra quads.  ``albedo``: (Q, 3)
    linear-light BGR.  ``two_sided``: (Q,) thin things whose back is seen too.
    """

    body: Body
    albedo: FloatArray
    two_sided: Chosen


def dress(body: Body, clothes: Clothes) -> Dressed:
    """Put clothes on a body."""
    worn = _drop(body, _under_collar(body))
    regions = _Regions(worn)
    albedo = _albedo(worn, regions, clothes)
    shaped = replace(worn, vertices_m=_shaped(worn, regions, clothes))
    return _with_additions(shaped, albedo, clothes)


def _with_additions(body: Body, albedo: FloatArray, clothes: Clothes) -> Dressed:
    additions: list[Added] = []
    if clothes.cap is not None:
        additions.append(cap_brim(body, colour(clothes.cap)))
    if clothes.long_hair:
        additions.append(ponytail(body, colour(clothes.hair)))
    two_sided = np.zeros(len(body.quads), bool)
    for added in additions:
        body = _joined(body, added)
        albedo = np.concatenate([albedo, np.tile(added.albedo, (len(added.quads), 1))])
        two_sided = np.concatenate([two_sided, np.ones(len(added.quads), bool)])
    return Dressed(body, albedo, two_sided)


def _joined(body: Body, added: Added) -> Body:
    count = len(added.vertices_m)
    bones = np.full((count, body.skin_bones.shape[1]), body.bone("head"))
    weights = np.zeros((count, body.skin_weights.shape[1]))
    weights[:, 0] = 1.0
    part = np.full(len(added.quads), PART_NAMES.index("bare_head"))
    return replace(
        body,
        vertices_m=np.concatenate([body.vertices_m, added.vertices_m]),
        quads=np.concatenate([body.quads, added.quads + len(body.vertices_m)]),
        quad_parts=np.concatenate([body.quad_parts, part]),
        skin_weights=np.concatenate([body.skin_weights, weights]),
        skin_bones=np.concatenate([body.skin_bones, bones]),
    )


def _drop(body: Body, dropped: Chosen) -> Body:
    return replace(body, quads=body.quads[~dropped], quad_parts=body.quad_parts[~dropped])


def _under_collar(body: Body) -> Chosen:
    """The suit's neck above the shirt collar; the bare neck shows there."""
    middle = body.vertices_m[body.quads].mean(axis=1)
    neck = body.bone_rest[body.bone("neck_01"), :3, 3]
    collar = neck[1] - 0.002 * body.stature_m + 0.35 * (neck[2] - middle[:, 2])
    return np.asarray(_is(body, "suit_neck", "suit_torso", "suit_head") & (middle[:, 1] > collar))


def _is(body: Body, *names: str) -> Chosen:
    wanted = [i for i, part in enumerate(PART_NAMES) if part.startswith(names)]
    return np.isin(body.quad_parts, wanted)


class _Regions:
    """Which quads wear what, on a body at rest."""

    def __init__(self, body: Body) -> None:
        self.body = body
        self.middle = body.vertices_m[body.quads].mean(axis=1)
        self.waist_m = self._joint("spine_01")[1] + 0.004 * body.stature_m
        self.eyes_m = self.middle[_is(body, "eye")].mean(axis=0)

    def _joint(self, bone: str) -> FloatArray:
        return self.body.bone_rest[self.body.bone(bone), :3, 3]

    @property
    def suit(self) -> Chosen:
        return _is(self.body, "suit")

    @property
    def shoes(self) -> Chosen:
        ankle_m = self._joint("foot_l")[1]
        return np.asarray(_is(self.body, "suit_foot", "suit_calf") & (self.middle[:, 1] < ankle_m))

    @property
    def trousers(self) -> Chosen:
        arms = _is(self.body, "suit_upperarm", "suit_lowerarm")
        return np.asarray(self.suit & ~self.shoes & ~arms & (self.middle[:, 1] < self.waist_m))

    @property
    def belt(self) -> Chosen:
        band = np.abs(self.middle[:, 1] - self.waist_m) < 0.011 * self.body.stature_m
        return np.asarray(_is(self.body, "suit_torso", "suit_pelvis", "suit_thigh") & band)

    @property
    def buckle(self) -> Chosen:
        front = self.middle[:, 2] > self._joint("spine_01")[2]
        return np.asarray(
            self.belt & front & (np.abs(self.middle[:, 0]) < 0.016 * self.body.stature_m)
        )

    @property
    def forearms(self) -> Chosen:
        return np.asarray(_is(self.body, "suit_lowerarm") | self._low_upper_arm("_l", "_r"))

    def _low_upper_arm(self, *sides: str) -> Chosen:
        low = np.zeros(len(self.middle), bool)
        for side in sides:
            shoulder, elbow = self._joint("upperarm" + side), self._joint("lowerarm" + side)
            along = (self.middle - shoulder) @ (elbow - shoulder)
            far = along > 0.72 * ((elbow - shoulder) @ (elbow - shoulder))
            low |= far & _is(self.body, "suit_upperarm" + side)
        return low

    @property
    def glove(self) -> Chosen:
        wrist, knuckle = self._joint("hand_l"), self._joint("middle_01_l")
        beyond = (self.middle - wrist) @ (knuckle - wrist) > 0
        return np.asarray(_is(self.body, "bare_hand_l") & beyond)

    @property
    def crown(self) -> Chosen:
        """Where a cap sits: above the brow in front, lower at the back."""
        size = self.body.stature_m
        edge = self.eyes_m[1] + 0.022 * size + 0.12 * (self.middle[:, 2] - self.eyes_m[2])
        return np.asarray(_is(self.body, "bare_head") & (self.middle[:, 1] > edge))

    @property
    def hair(self) -> Chosen:
        size = self.body.stature_m
        behind = self.eyes_m[2] - self.middle[:, 2]
        up = self.middle[:, 1] - self.eyes_m[1]
        scalp = (up > 0.030 * size) | (
            (behind > 0.052 * size) & (up > 0.2 * 0.052 * size - behind * 0.35)
        )
        ears = np.abs(self.middle[:, 0]) > 0.0445 * size
        return np.asarray(_is(self.body, "bare_head") & scalp & ~(ears & (up < 0.012 * size)))

    @property
    def brows(self) -> Chosen:
        size = self.body.stature_m
        up = self.middle[:, 1] - self.eyes_m[1]
        aside = np.abs(self.middle[:, 0])
        high = (up > 0.0085 * size) & (up < 0.0135 * size)
        front = self.middle[:, 2] > self.eyes_m[2] - 0.006 * size
        between = (aside > 0.008 * size) & (aside < 0.029 * size)
        return np.asarray(_is(self.body, "bare_head") & high & front & between)

    @property
    def irises(self) -> Chosen:
        eye = _is(self.body, "eye")
        chosen = np.zeros(len(self.middle), bool)
        for side in (self.middle[:, 0] > 0, self.middle[:, 0] < 0):
            ball = self.middle[eye & side]
            across = self.middle[:, :2] - (ball[:, :2].min(axis=0) + ball[:, :2].max(axis=0)) / 2
            near = np.hypot(across[:, 0], across[:, 1]) < 0.40 * np.ptp(ball[:, 0]) / 1.6
            chosen |= eye & side & near & (self.middle[:, 2] > ball[:, 2].mean())
        return chosen


def _albedo(body: Body, regions: _Regions, clothes: Clothes) -> FloatArray:
    skin = colour(clothes.skin)
    albedo = np.tile(skin, (len(body.quads), 1))
    albedo[_is(body, "eye")] = colour("#f3f0ec")
    albedo[regions.irises] = colour("#2a1c14")
    albedo[_is(body, "bare_lips")] = skin * [0.62, 0.62, 0.82]
    albedo[regions.hair] = colour(clothes.hair)
    albedo[regions.brows] = 0.8 * colour(clothes.hair) + 0.1 * skin
    if clothes.cap is not None:
        albedo[regions.crown] = colour(clothes.cap)
    albedo[regions.suit] = colour(clothes.shirt)
    if not clothes.long_sleeves:
        albedo[regions.forearms] = skin
    albedo[regions.trousers] = colour(clothes.trousers)
    albedo[regions.shoes] = colour(clothes.shoes)
    albedo[regions.belt] = colour(clothes.belt)
    albedo[regions.buckle] = colour(clothes.buckle)
    albedo[regions.glove] = colour(clothes.glove)
    return albedo


def _shaped(body: Body, regions: _Regions, clothes: Clothes) -> FloatArray:
    """Rest vertices pushed out along their normals by each garment's looseness."""
    size = body.stature_m / 1.8
    looseness = np.zeros(len(body.quads))
    looseness[regions.suit] = 0.006
    looseness[regions.forearms] = 0.006 if clothes.long_sleeves else -0.002
    looseness[regions.trousers] = 0.011
    looseness[regions.belt] = 0.011
    looseness[regions.shoes] = 0.007
    looseness[regions.hair] = 0.006
    if clothes.cap is not None:
        looseness[regions.crown] = 0.011
    push = _to_vertices(body, looseness[:, None])[:, 0]
    return body.vertices_m + (push * size)[:, None] * vertex_normals(body)


def _to_vertices(body: Body, per_quad: FloatArray) -> FloatArray:
    """(V, k) means of the (Q, k) values of the quads that meet at each vertex."""
    total = np.zeros((len(body.vertices_m), per_quad.shape[1]))
    count = np.zeros((len(body.vertices_m), 1))
    for corner in range(4):
        np.add.at(total, body.quads[:, corner], per_quad)
        np.add.at(count, body.quads[:, corner], 1.0)
    return np.asarray(total / np.maximum(count, 1.0))


def vertex_normals(body: Body) -> FloatArray:
    """(V, 3) unit normals at rest."""
    normals = _to_vertices(body, quad_normals(body.vertices_m[body.quads]))
    length = np.linalg.norm(normals, axis=1, keepdims=True)
    return np.asarray(normals / np.maximum(length, 1e-9))


def quad_normals(corners_m: FloatArray) -> FloatArray:
    """(Q, 3) unit normals of (Q, 4, 3) corners, counter-clockwise seen from outside."""
    across = corners_m[:, 2] - corners_m[:, 0]
    other = corners_m[:, 3] - corners_m[:, 1]
    normals = np.cross(across, other)
    return np.asarray(normals / np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-12))
