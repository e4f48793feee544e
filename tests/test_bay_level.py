import cv2
import numpy as np
import pytest
from numpy.typing import NDArray

from baycue.bay.level import SET_BY_EYE, Level, camera_level, levelled, levelled_shaft
from baycue.club.reading import Evidence, ShaftReading
from baycue.pose.pose import LANDMARK_COUNT, Pose
from baycue.pose.sides import Stance

NOBODY = (-1.0, -1.0, 0.0, 0.0)
SIZE_PX = (360, 640)


def bay_with_posts(
    slant_deg: float, contrast: float = 20.0, seed: int = 1
) -> list[NDArray[np.uint8]]:
    """Noisy pictures of posts, drawn upright and turned by OpenCV's own rotation."""
    upright = np.full(SIZE_PX, 110.0)
    for left in (40, 130, 230, 420, 500, 580):
        upright[:, left : left + 12] += contrast
    # A positive angle of OpenCV's turns counter-clockwise: the foot of a post goes right.
    turn = cv2.getRotationMatrix2D((320.0, 180.0), slant_deg, 1.0)
    turned = cv2.warpAffine(upright, turn, SIZE_PX[::-1], borderMode=cv2.BORDER_REFLECT)
    rng = np.random.default_rng(seed)
    return [
        np.clip(turned + rng.normal(0, 2.0, SIZE_PX), 0, 255).astype(np.uint8) for _ in range(8)
    ]


@pytest.mark.parametrize("slant_deg", [-5.0, -1.3, 0.0, 2.0, 4.6])
def test_the_lean_is_read_off_the_posts(slant_deg: float) -> None:
    level = camera_level(bay_with_posts(slant_deg), NOBODY)
    assert level.slant_deg == pytest.approx(slant_deg, abs=0.3)
    assert level.sigma_deg < 0.6


def test_faint_seams_are_enough() -> None:
    level = camera_level(bay_with_posts(2.0, contrast=5.0), NOBODY)
    assert level.slant_deg == pytest.approx(2.0, abs=0.5)


def test_an_empty_wall_tells_nothing() -> None:
    assert camera_level(bay_with_posts(3.0, contrast=0.0), NOBODY) == SET_BY_EYE


def test_lines_at_every_slant_tell_nothing() -> None:
    """Twigs and nets: near-uprights that do not agree."""
    rng = np.random.default_rng(4)
    picture = np.full(SIZE_PX, 110, np.uint8)
    for _ in range(60):
        x, y = rng.uniform(20, 620), rng.uniform(20, 300)
        run = 60 * np.array([np.sin(a := np.radians(rng.uniform(-12, 12))), np.cos(a)])
        cv2.line(picture, (int(x), int(y)), (int(x + run[0]), int(y + run[1])), 150, 1)
    assert camera_level([picture] * 3, NOBODY) == SET_BY_EYE


def test_the_golfers_own_place_is_left_out() -> None:
    pictures = bay_with_posts(2.0)
    assert camera_level(pictures, (0.0, 0.0, 640.0, 360.0)) == SET_BY_EYE


def test_levelling_makes_a_leaning_post_upright_and_can_be_undone() -> None:
    slant = np.radians(3.0)
    pixels = np.tile([600.0, 300.0], (LANDMARK_COUNT, 1))
    pixels[1] += 100 * np.array([np.sin(slant), np.cos(slant)])
    pose = Pose(0, 0, pixels, np.zeros((LANDMARK_COUNT, 3)), np.ones(LANDMARK_COUNT))
    upright = levelled(pose, Level(3.0, 0.3), 1280, 720)
    assert upright.pixels[1] - upright.pixels[0] == pytest.approx([0.0, 100.0])
    back = levelled(upright, -Level(3.0, 0.3), 1280, 720)
    assert back.pixels == pytest.approx(pose.pixels)


@pytest.mark.parametrize("left_leads", [True, False])
def test_a_shaft_turns_with_the_picture(left_leads: bool) -> None:
    stance = Stance(left_leads)
    seen_deg = 3.0 * stance.toward_target
    reading = ShaftReading(0, 0, seen_deg, 1.0, 0.0, Evidence.PICTURE)
    assert levelled_shaft(reading, Level(3.0, 0.3), stance).angle_deg == pytest.approx(0.0)


@pytest.mark.parametrize("slant_deg", [-3.0, 2.5])
def test_a_wall_at_one_side_does_not_outvote_the_bay(slant_deg: float) -> None:
    """A camera that looks down makes uprights converge; most of them stand at the right."""
    picture = np.full(SIZE_PX, 110, np.uint8)
    for x in (30, 130, 470, 510, 540, 560, 590, 610):
        lean = np.radians(slant_deg + 4.0 * (x / 320 - 1))
        top, foot = (x - 150 * np.tan(lean), 30), (x + 150 * np.tan(lean), 330)
        ends = [tuple(round(v * 16) for v in end) for end in (top, foot)]
        cv2.line(picture, ends[0], ends[1], 150, 3, cv2.LINE_AA, shift=4)
    level = camera_level([picture] * 3, NOBODY)
    assert level.slant_deg == pytest.approx(slant_deg, abs=0.4)
