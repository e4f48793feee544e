"""Who is in a recording, told from people and poses without the pose model."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
import pytest

from baycue.capture.frame import Frame
from baycue.errors import SceneError
from baycue.plan.load import load_plan
from baycue.pose.bystanders import Person, share_with_company
from baycue.pose.pose import Pose
from baycue.recording import score_frames
from tests.command_line import PLAN
from tests.scored_swing import scored_swing

HEIGHT_PX = 400.0
FRAMES = 30


def person(x_px: float, y_px: float = 360.0, height_px: float = HEIGHT_PX) -> Person:
    return Person(np.array([x_px, y_px]), height_px)


GOLFER = person(640)


def test_somebody_in_one_place_counts_in_every_frame() -> None:
    swaying = [[GOLFER, person(1000 + sway)] for sway in (0, 20, -15, 10, 5)]
    assert share_with_company(swaying) == 1.0


def test_somebody_walking_through_counts_in_one_frame() -> None:
    walking = [[GOLFER, person(x)] for x in (100, 350, 850, 1050, 1250)]
    assert share_with_company(walking) == pytest.approx(1 / 5)


def test_somebody_walking_toward_the_camera_does_not_stay() -> None:
    """Places of a synthetic passer-by beside a golfer seen down the line, half a second apart."""
    seen = [(981, 376, 145), (997, 379, 157), (1021, 384, 168), (1047, 390, 182), (1078, 396, 199)]
    toward = [[person(812, 387, 217), person(*place)] for place in seen]
    assert share_with_company(toward) == pytest.approx(2 / 5)


def test_a_golfer_is_no_company_though_a_taller_passer_by_is_found_first() -> None:
    walking = [[person(x), GOLFER] for x in (100, 350)] + [[GOLFER, person(x)] for x in (850, 1050)]
    assert share_with_company(walking) == pytest.approx(1 / 4)


def test_somebody_who_stays_behind_the_golfer_is_company() -> None:
    assert share_with_company([[person(650), GOLFER]] * 3) == 1.0


def test_a_golfer_alone_and_an_empty_bay_have_no_company() -> None:
    assert share_with_company([[GOLFER], [GOLFER], []]) == 0.0
    assert share_with_company([]) == 0.0


@dataclass
class TellsPose:
    """An estimator that sees the same body in every frame, or nobody."""

    pose: Pose | None

    def estimate(self, frame: Frame) -> Pose | None:
        if self.pose is None:
            return None
        return replace(self.pose, frame_index=frame.index, stamp_ns=frame.stamp_ns)

    def close(self) -> None:
        pass


def frames() -> Iterator[Frame]:
    picture = np.zeros((720, 1280, 3), dtype=np.uint8)
    for index in range(FRAMES):
        yield Frame(index, index * 33_333_333, picture)


def lowered(pose: Pose, by_px: float) -> Pose:
    return replace(pose, pixels=pose.pixels + np.array([0.0, by_px]))


def test_nobody_is_told() -> None:
    with pytest.raises(SceneError, match=r"clip: nobody is seen in it"):
        score_frames("clip", frames(), TellsPose(None), load_plan(PLAN))


def test_a_whole_golfer_without_a_swing_is_fine_and_counted() -> None:
    seen: list[int] = []
    pose = scored_swing().evidence.poses[0]
    tally, swings = score_frames("clip", frames(), TellsPose(pose), load_plan(PLAN), seen.append)
    assert swings == ()
    assert seen == list(range(1, FRAMES + 1))
    assert tally.frames == FRAMES
    assert 0 < tally.golfer_frames < FRAMES
    assert tally.footless_frames == 0


def test_feet_below_the_picture_are_told_when_no_swing_was_found() -> None:
    pose = lowered(scored_swing().evidence.poses[0], 250.0)
    with pytest.raises(SceneError, match=r"feet are cut off .*; tilt the camera down"):
        score_frames("clip", frames(), TellsPose(pose), load_plan(PLAN))
