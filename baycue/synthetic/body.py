"""The baked bodies, scaled to any stature.

The shapes come from the MakeHuman base mesh (CC0, see ``bodies/NOTICE``).
"""

from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.scene import Body

BODIES_FOLDER = Path(__file__).parent / "bodies"
BODY_NAMES = ("adult_male", "older_heavy_male", "adult_female")

_SIDED = ("upperarm", "lowerarm", "hand", "thigh", "calf", "foot")
_REGIONS = (
    "head",
    "neck",
    "torso",
    "pelvis",
    *(f"{stem}{side}" for stem in _SIDED for side in ("_l", "_r")),
)
PART_NAMES: tuple[str, ...] = (
    "eye",
    "bare_lips",
    *(f"bare_{region}" for region in _REGIONS),
    *(f"suit_{region}" for region in _REGIONS),
)
"""What a quad belongs to: an eyeball, bare skin of a region, or the suit over a region."""


def load_body(name: str, stature_m: float | None = None) -> Body:
    """A baked body, uniformly scaled to ``stature_m`` (its natural stature if None).

    Raises ValueError for a name not in ``BODY_NAMES``.
    """
    if name not in BODY_NAMES:
        raise ValueError(f"no body {name!r}; there are {', '.join(BODY_NAMES)}")
    with np.load(BODIES_FOLDER / f"{name}.npz") as baked:
        natural_m = float(baked["stature_m"])
        scale = 1.0 if stature_m is None else stature_m / natural_m
        rest = baked["bone_rest"].copy()
        rest[:, :3, 3] *= scale
        return Body(
            name=name,
            stature_m=natural_m * scale,
            vertices_m=baked["vertices_m"].astype(np.float64) * scale,
            quads=baked["quads"].astype(np.int64),
            quad_parts=baked["quad_parts"].astype(np.int64),
            skin_weights=baked["skin_weights"].astype(np.float64),
            skin_bones=baked["skin_bones"].astype(np.int64),
            bone_names=tuple(str(n) for n in baked["bone_names"]),
            bone_parents=baked["bone_parents"].astype(np.int64),
            bone_rest=rest,
            bone_tails_m=baked["bone_tails_m"] * scale,
        )


def parts(body: Body, *prefixes: str) -> NDArray[np.bool_]:
    """The quads of all parts whose names start with one of the prefixes."""
    wanted = [i for i, part in enumerate(PART_NAMES) if part.startswith(prefixes)]
    return np.isin(body.quad_parts, wanted)
