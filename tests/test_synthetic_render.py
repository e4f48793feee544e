"""Painting, light, motion blur and noise, on scenes small enough to reason about."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from baycue.plan.stance import Handedness
from baycue.synthetic.backdrop import backdrop
from baycue.synthetic.bay import Bay, Panel
from baycue.synthetic.body import load_body
from baycue.synthetic.camera import Camera
from baycue.synthetic.clip import Shot, render_frame, stage_of
from baycue.synthetic.clothes import Clothes, dress
from baycue.synthetic.light import Lighting, encoded, linear_from_srgb, shade, srgb_from_linear
from baycue.synthetic.painter import (
    Facets,
    Window,
    coarsened,
    coloured,
    flatten,
    paint_numbers,
    palette,
)
from baycue.synthetic.scene import ClubPose, FloatArray, Moment
from baycue.synthetic.sensor import QUIET, Noise, developed

CAMERA = Camera(width_px=200, height_px=160, distance_m=3.0, height_m=0.9, field_of_view_deg=50)
DARK = Bay((Panel((-9, -5, -3), (18, 0, 0), (0, 12, 0), "#202020", grain=0.0),))
CLOSE = replace(CAMERA, field_of_view_deg=20.0)
BODY = load_body("adult_male", 1.75)


def square(z: float, colour: float, size: float = 1.0) -> Facets:
    x = np.array([-1, 1, 1, -1]) * size / 2
    y = 0.9 + np.array([-1, -1, 1, 1]) * size / 2
    return Facets(np.stack([x, y, np.full(4, z)], axis=1)[None], np.full((1, 3), colour))


def painted(facets: Facets) -> NDArray[np.float32]:
    window = Window(0, 0, CAMERA.width_px, CAMERA.height_px)
    flat = flatten(facets, CAMERA)
    return coarsened(coloured(paint_numbers(flat, window), palette(flat)))


@pytest.mark.parametrize("order", [(0, 1), (1, 0)])
def test_a_nearer_facet_hides_a_farther_whatever_their_order(order: tuple[int, int]) -> None:
    two = [square(0.0, 0.2), square(0.5, 0.7, size=0.3)]
    facets = Facets(
        np.concatenate([two[i].corners_m for i in order]),
        np.concatenate([two[i].colours for i in order]),
    )
    picture = painted(facets)
    assert picture[80, 100, :3] == pytest.approx([0.7] * 3)
    assert picture[80, 70, :3] == pytest.approx([0.2] * 3)
    assert picture[5, 5, 3] == 0.0


def test_a_facet_covers_its_projected_area() -> None:
    expected_px = (CAMERA.focal_px / 3.0) ** 2
    assert painted(square(0.0, 1.0))[..., 3].sum() == pytest.approx(expected_px, rel=0.03)


def test_facets_behind_the_camera_are_left_out() -> None:
    assert painted(square(4.0, 1.0)).max() == 0.0


def test_srgb_agrees_with_iec_61966_2_1() -> None:
    # The standard's own break point and its inverse pair; 0.2140 <-> 0.5 from memory.
    assert srgb_from_linear(np.array([0.0031308])) == pytest.approx([0.04045], abs=2e-5)
    assert linear_from_srgb(np.array([0.5])) == pytest.approx([0.2140], abs=1e-4)
    values = np.linspace(0, 1, 256)
    assert srgb_from_linear(linear_from_srgb(values)) == pytest.approx(values, abs=1e-6)


def test_eight_bit_values_survive_linear_light() -> None:
    every = np.arange(256, dtype=np.float64)
    light = linear_from_srgb(every / 255).astype(np.float32)
    assert np.abs(encoded(light).astype(int) - every).max() <= 1


def test_shading_follows_lamberts_cosine_law() -> None:
    lighting = Lighting(level=1.0, toward=(0.0, 0.0, 1.0), ambient=0.0, lamp=1.0)
    angles = np.radians([0, 60, 90, 150])
    normals = np.stack([0 * angles, np.sin(angles), np.cos(angles)], axis=1)
    light = shade(np.ones((4, 3)), normals, lighting)
    assert light[:, 0] == pytest.approx([1.0, 0.5, 0.0, 0.0], abs=1e-9)


def test_noise_has_the_spread_asked_for_and_hangs_on_seed_and_index_only() -> None:
    noise = Noise(read=0.01, shot=0.02)
    light = np.full((200, 200, 3), 0.25, np.float32)
    picture = developed(light, noise, seed=5, index=2)
    spread = linear_from_srgb(picture / 255.0).std()
    assert spread == pytest.approx(np.sqrt(0.01**2 + 0.02**2 * 0.25), rel=0.05)
    assert (picture == developed(light, noise, seed=5, index=2)).all()
    assert (picture != developed(light, noise, seed=5, index=3)).any()
    assert (picture != developed(light, noise, seed=6, index=2)).any()


def ball_only(speed_m_s: float) -> Callable[[float], Moment]:
    return lambda t: Moment(None, ball_m=np.array([speed_m_s * t, 0.9, 0.0]))


def ball_light(shutter_s: float, speed_m_s: float, middle_s: float = 0.0) -> FloatArray:
    shot = Shot(BODY, CLOSE, DARK, noise=QUIET, shutter_s=shutter_s, fps=1.0)
    stage = stage_of(shot)
    picture = render_frame(shot, stage, lambda t: ball_only(speed_m_s)(t + middle_s), 0)
    light = linear_from_srgb(picture / 255.0).sum(axis=2)
    still = linear_from_srgb(developed(stage.backdrop, QUIET, 1, 0) / 255.0).sum(axis=2)
    return np.asarray(np.clip(light - still, 0, None))


def test_blur_spreads_the_balls_light_evenly_along_its_way() -> None:
    light = ball_light(shutter_s=0.02, speed_m_s=20.0)
    lit = np.flatnonzero(light.sum(axis=0) > 0.05)
    travel_px = 20.0 * 0.02 * CLOSE.focal_px / 3.0
    ball_px = 2 * 0.02135 * CLOSE.focal_px / 3.0
    assert np.ptp(lit) + 1 == pytest.approx(travel_px + ball_px, abs=3)
    inner = light.sum(axis=0)[lit[4] : lit[-4]]
    assert inner.std() / inner.mean() < 0.15


def test_blur_neither_adds_nor_loses_light() -> None:
    still, moving = ball_light(0.02, 0.0).sum(), ball_light(0.02, 20.0).sum()
    assert moving == pytest.approx(still, rel=0.12)


def test_the_middle_of_the_blur_is_the_middle_of_the_exposure() -> None:
    light = ball_light(shutter_s=0.02, speed_m_s=20.0, middle_s=0.01)
    middle = (light.sum(axis=0) * np.arange(light.shape[1])).sum() / light.sum()
    expected = CLOSE.project(np.array([[0.2, 0.9, 0.0]]))[0][0, 0]
    assert middle == pytest.approx(expected, abs=1.0)


def standing(club: ClubPose | None = None) -> Callable[[float], Moment]:
    return lambda _: Moment(BODY.bone_rest, club)


def taken(moment_at: Callable[[float], Moment], camera: Camera = CAMERA) -> FloatArray:
    shot = Shot(BODY, camera, DARK, noise=QUIET)
    return render_frame(shot, stage_of(shot), moment_at, 0).astype(np.float64)


def across_the_chest(z: float) -> ClubPose:
    return ClubPose(np.array([-0.9, 1.2, z]), np.array([0.9, 1.2, z]), np.array([0.0, 0.0, 1.0]))


def test_the_club_shows_before_the_chest_and_hides_behind_it() -> None:
    rows = [round(float(CAMERA.project(np.array([[0, 1.2, z]]))[0][0, 1])) for z in (0.4, -0.4)]
    chest = np.s_[min(rows) - 3 : max(rows) + 4, 95:106]
    bare = taken(standing())
    before, behind = taken(standing(across_the_chest(0.4))), taken(standing(across_the_chest(-0.4)))
    assert np.abs(before - bare)[chest].max() > 30
    assert np.abs(behind - bare)[chest].max() == 0
    assert np.abs(behind - bare).max() > 30


def test_a_left_hander_is_the_right_hander_mirrored() -> None:
    left = replace(CAMERA, handedness=Handedness.LEFT)
    empty = taken(lambda _: Moment(None))
    right_outline = np.abs(taken(standing(across_the_chest(0.4))) - empty).max(axis=2) > 12
    left_outline = np.abs(taken(standing(across_the_chest(0.4)), left) - empty).max(axis=2) > 12
    assert right_outline.sum() > 1500
    assert (right_outline != left_outline[:, ::-1]).mean() < 0.005


def test_clothes_dress_the_body_where_they_should() -> None:
    clothes = Clothes(shirt="#ff0000", trousers="#00ff00", shoes="#0000ff", glove="#ffff00")
    dressed = dress(BODY, clothes)
    height = dressed.body.vertices_m[dressed.body.quads].mean(axis=1)[:, 1] / BODY.stature_m
    side = dressed.body.vertices_m[dressed.body.quads].mean(axis=1)[:, 0]

    def worn(blue: int, green: int, red: int) -> NDArray[np.bool_]:
        return np.asarray((dressed.albedo == [blue, green, red]).all(axis=1))

    assert 0.55 < height[worn(0, 0, 1)].min() < 0.70
    assert height[worn(0, 0, 1)].max() < 0.9
    assert height[worn(0, 1, 0)].max() < 0.66
    assert height[worn(1, 0, 0)].max() < 0.06
    assert side[worn(0, 1, 1)].min() > 0


def test_backdrop_fills_the_picture_and_dims_with_the_light() -> None:
    room = Bay((Panel((-9, -5, -3), (18, 0, 0), (0, 12, 0), "#808080", grain=0.0),))
    dim = Bay(room.panels, lighting=Lighting(level=room.lighting.level / 2))
    bright_light, dim_light = backdrop(room, CAMERA), backdrop(dim, CAMERA)
    assert bright_light.shape == (160, 200, 3)
    assert dim_light.mean() == pytest.approx(bright_light.mean() / 2, rel=1e-3)
