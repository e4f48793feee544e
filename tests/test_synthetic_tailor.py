"""Cutting quads along a seam."""

import numpy as np
import pytest
from numpy.typing import NDArray

from baycue.synthetic.body import load_body
from baycue.synthetic.scene import Body
from baycue.synthetic.skinning import skin
from baycue.synthetic.surface import quad_normals
from baycue.synthetic.tailor import cut

BODY = load_body("adult_male", 1.75)
EVERY = np.ones(len(BODY.quads), bool)


def area_m2(body: Body) -> float:
    corners = body.vertices_m[body.quads]
    across, other = corners[:, 2] - corners[:, 0], corners[:, 3] - corners[:, 1]
    return float(np.linalg.norm(np.cross(across, other), axis=1).sum() / 2)


def height_over_waist(body: Body) -> NDArray[np.float64]:
    return body.vertices_m[:, 1] - 1.0


@pytest.fixture(scope="module")
def cut_at_waist() -> Body:
    return cut(BODY, height_over_waist(BODY), EVERY)


def test_no_quad_crosses_the_seam(cut_at_waist: Body) -> None:
    levels = height_over_waist(cut_at_waist)[cut_at_waist.quads]
    above, below = (levels > 1e-9).any(axis=1), (levels < -1e-9).any(axis=1)
    assert not (above & below).any()
    assert len(cut_at_waist.quads) > len(BODY.quads)


def test_cutting_changes_neither_surface_nor_its_facing(cut_at_waist: Body) -> None:
    assert area_m2(cut_at_waist) == pytest.approx(area_m2(BODY), rel=1e-3)
    outward = quad_normals(cut_at_waist.vertices_m[cut_at_waist.quads])
    original = quad_normals(BODY.vertices_m[BODY.quads])
    assert outward[:, 2].mean() == pytest.approx(original[:, 2].mean(), abs=0.02)


def test_new_vertices_share_their_ends_weights(cut_at_waist: Body) -> None:
    assert cut_at_waist.skin_weights.sum(axis=1) == pytest.approx(1.0, abs=1e-6)
    lifted = BODY.bone_rest.copy()
    lifted[:, 1, 3] += 0.25
    assert np.allclose(skin(cut_at_waist, lifted), cut_at_waist.vertices_m + np.array([0, 0.25, 0]))


def test_quads_not_chosen_stay_whole() -> None:
    assert cut(BODY, height_over_waist(BODY), ~EVERY) is BODY
