"""What motion hands to rendering: everything in the bay that moves, at one instant.

World axes, metres: x along the target line, positive to the target; y up, the ground is
y = 0; z from the golfer to the ball.  A body facing +z has its left side at +x, which is
the right-hander at address facing the ball.  Motion always speaks of a right-hander; a
left-hander is the whole scene mirrored in x when it is drawn.

Transforms use the column convention: ``p_world = M @ p_local`` with ``p`` homogeneous.
A bone's own axes: origin at the bone's head, y along the bone to its tail.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class ClubPose:
    """Where the club is.

    ``butt_m``: (3,) end of the grip.  ``head_m``: (3,) centre of the club head.
    ``face_normal``: (3,) unit vector out of the club face.
    """

    butt_m: FloatArray
    head_m: FloatArray
    face_normal: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Moment:
    """Everything that moves, at one instant.

    ``bones``: (B, 4, 4) world transforms of the body's bones in the order of
    ``Body.bone_names``; None if no golfer is in the bay.  ``ball_m``: (3,) centre of the
    ball; None once it is gone.  ``walker``: (B, 4, 4), a second person's bones.
    """

    bones: FloatArray | None
    club: ClubPose | None = None
    ball_m: FloatArray | None = None
    walker: FloatArray | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Body:
    """A skinned body at rest, facing +z, soles on y = 0.

    ``vertices_m``: (V, 3).  ``quads``: (Q, 4) vertex indices, counter-clockwise seen from
    outside.  ``quad_parts``: (Q,) index into ``baycue.synthetic.body.PART_NAMES``.
    ``skin_weights``: (V, 4), rows sum to 1; ``skin_bones``: (V, 4) bone indices.
    ``bone_parents``: (B,) index of the parent, -1 for the root; parents come first.
    ``bone_rest``: (B, 4, 4) world transforms at rest.  ``bone_tails_m``: (B, 3) world
    position of each bone's tail at rest.
    """

    name: str
    stature_m: float
    vertices_m: FloatArray
    quads: IntArray
    quad_parts: IntArray
    skin_weights: FloatArray
    skin_bones: IntArray
    bone_names: tuple[str, ...]
    bone_parents: IntArray
    bone_rest: FloatArray
    bone_tails_m: FloatArray

    def bone(self, name: str) -> int:
        """Index of the bone of that name; raises ValueError if there is none."""
        return self.bone_names.index(name)
