"""Clothes: which quad is shirt, trousers, skin or hair, and how loose the cloth hangs."""

from dataclasses import dataclass, replace

import numpy as np
from scipy.sparse import csr_array

from baycue.synthetic.body import PART_NAMES, parts
from baycue.synthetic.headwear import Added, cap_brim, ponytail
from baycue.synthetic.light import colour
from baycue.synthetic.regions import Chosen, Regions, sewn
from baycue.synthetic.scene import Body, FloatArray
from baycue.synthetic.surface import smoothing, to_vertices, vertex_normals


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
    ``smoothing``: (Q, Q) sparse, takes each quad's normal to the mean of its neighbours'.
    """

    body: Body
    albedo: FloatArray
    two_sided: Chosen
    smoothing: csr_array


def dress(body: Body, clothes: Clothes) -> Dressed:
    """Put clothes on a body."""
    worn = sewn(body)
    regions = Regions(worn)
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
    return Dressed(body, albedo, two_sided, smoothing(body))


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


def _albedo(body: Body, regions: Regions, clothes: Clothes) -> FloatArray:
    skin = colour(clothes.skin)
    albedo = np.tile(skin, (len(body.quads), 1))
    albedo[parts(body, "eye")] = colour("#f3f0ec")
    albedo[regions.irises] = colour("#2a1c14")
    albedo[parts(body, "bare_lips")] = skin * [0.62, 0.62, 0.82]
    albedo[regions.hair] = colour(clothes.hair)
    albedo[regions.brows] = 0.8 * colour(clothes.hair) + 0.1 * skin
    if clothes.cap is not None:
        albedo[regions.cap] = colour(clothes.cap)
    albedo[regions.suit] = colour(clothes.shirt)
    if not clothes.long_sleeves:
        albedo[regions.forearms] = skin
    albedo[regions.trousers] = colour(clothes.trousers)
    albedo[regions.shoes] = colour(clothes.shoes)
    albedo[regions.belt] = colour(clothes.belt)
    albedo[regions.buckle] = colour(clothes.buckle)
    albedo[regions.glove] = colour(clothes.glove)
    return albedo


def _shaped(body: Body, regions: Regions, clothes: Clothes) -> FloatArray:
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
        looseness[regions.cap] = 0.011
    push = to_vertices(body, looseness[:, None])[:, 0]
    return body.vertices_m + (push * size)[:, None] * vertex_normals(body)
