"""The shaft followed through drawn swings whose every angle is known."""

from dataclasses import dataclass, replace
from functools import lru_cache

import cv2
import numpy as np
import pytest

from baycue.club.background import GreyPicture, shrink_to_grey
from baycue.club.reading import Evidence, ShaftReading
from baycue.club.scene import ClubScene
from baycue.club.track import track_shaft
from baycue.swing.arms import lead_arm_deg
from baycue.swing.hands import grip_px, hand_sample
from tests.canned_readings import RIGHT_HANDER, seconds
from tests.canned_swing import canned_swing
from tests.drawn_swing import Drawing, drawn
from tests.stick_golfer import FloatArray, frame_times_s, jittered, poses_of

_SHRINK = 2
_NEAR_TOP_S = 0.12
HANDS_SIGMA_PX = 2.0


@dataclass(frozen=True, slots=True)
class Filming:
    """Frame rate and how the pictures are drawn."""

    fps: float
    shutter_s: float
    with_club: bool = True
    seed: int = 0


SLOW_SHUTTER, FAST_SHUTTER = Filming(30, 1 / 60), Filming(30, 1 / 500)
MANY_FRAMES = Filming(120, 1 / 500)
FILMINGS = [SLOW_SHUTTER, FAST_SHUTTER, MANY_FRAMES]
IDS = ["30 fps 1/60 s", "30 fps 1/500 s", "120 fps 1/500 s"]


def times_of(filming: Filming) -> FloatArray:
    to_s = 0.40 if filming.fps < 100 else 0.37
    from_s = -1.2 if filming.fps < 100 else -0.9
    return frame_times_s(filming.fps, from_s, to_s, 0.3)


@lru_cache(maxsize=4)
def scene_of(filming: Filming) -> ClubScene:
    """The drawn swing as the club room sees it, the hands a little off."""
    rng = np.random.default_rng(filming.seed + 40)
    times = times_of(filming)
    true = poses_of(times, canned_swing())
    how = Drawing(filming.shutter_s, filming.with_club, seed=filming.seed)
    poses = jittered(true, HANDS_SIGMA_PX, rng)
    return ClubScene(
        stamps_ns=tuple(p.stamp_ns for p in poses),
        frame_indices=tuple(range(100, 100 + len(poses))),
        greys=[_halved(p) for p in drawn(times, true, how)],
        hands_px=np.array([grip_px(p) for p in poses]) / _SHRINK,
        arm_deg=lead_arm_deg(poses, RIGHT_HANDER),
        body_px=float(np.median([hand_sample(p).body_px for p in poses])) / _SHRINK,
        turning=(np.sign(times) * (np.abs(times) > _NEAR_TOP_S)).astype(np.int8),
        target_on_right=True,
    )


def _halved(picture: GreyPicture) -> GreyPicture:
    return shrink_to_grey(np.asarray(cv2.cvtColor(picture, cv2.COLOR_GRAY2BGR), np.uint8), _SHRINK)


@lru_cache(maxsize=4)
def readings_of(filming: Filming) -> tuple[ShaftReading, ...]:
    return track_shaft(scene_of(filming))


def errors_deg(filming: Filming) -> FloatArray:
    readings = readings_of(filming)
    true = canned_swing().shaft_deg(np.array([seconds(r.stamp_ns) for r in readings]))
    return np.array([r.angle_deg for r in readings]) - true


def shown(filming: Filming) -> FloatArray:
    return np.array([r.evidence is Evidence.PICTURE for r in readings_of(filming)])


@pytest.mark.parametrize("filming", FILMINGS, ids=IDS)
def test_every_frame_gets_a_reading(filming: Filming) -> None:
    scene, readings = scene_of(filming), readings_of(filming)
    assert tuple(r.stamp_ns for r in readings) == scene.stamps_ns
    assert tuple(r.frame_index for r in readings) == scene.frame_indices
    assert all(r.sigma_deg > 0 for r in readings)


@pytest.mark.parametrize("filming", FILMINGS, ids=IDS)
def test_the_shaft_is_seen_and_its_angle_right(filming: Filming) -> None:
    seen = shown(filming)
    off = np.abs(errors_deg(filming))[seen]
    assert seen.mean() > 0.9
    assert float(np.median(off)) < 1.0
    assert off.max() < 5.0


@pytest.mark.parametrize("filming", FILMINGS, ids=IDS)
def test_coming_down_too_where_the_club_is_fastest(filming: Filming) -> None:
    times = times_of(filming)
    fast = np.abs(canned_swing().shaft_rate_deg_s(times)) > 1000
    assert fast.sum() >= 4
    assert shown(filming)[fast].mean() >= 0.75
    assert np.abs(errors_deg(filming)[fast]).max() < 5.0


@pytest.mark.parametrize("filming", FILMINGS, ids=IDS)
def test_the_spread_told_is_about_the_error_made(filming: Filming) -> None:
    sigmas = np.array([r.sigma_deg for r in readings_of(filming)])
    z = (errors_deg(filming) / sigmas)[shown(filming)]
    assert 0.2 < float(np.sqrt(np.mean(z**2))) < 2.0


def test_the_blur_tells_the_shutter() -> None:
    """To a factor of two: the sweep is read on a coarse scale and leans to the wide side."""
    fast = np.abs(canned_swing().shaft_rate_deg_s(times_of(SLOW_SHUTTER))) > 1300
    slow_shutter, fast_shutter = (
        np.array([r.sweep_deg for r in readings_of(f)])[fast] for f in (SLOW_SHUTTER, FAST_SHUTTER)
    )
    true = canned_swing().shaft_rate_deg_s(times_of(SLOW_SHUTTER))[fast] / 60
    assert 0.5 < float(np.median(slow_shutter / true)) < 2.0
    assert float(np.mean(slow_shutter)) > 3 * float(np.mean(fast_shutter))


def test_a_picture_turned_left_for_right_gives_the_same_readings() -> None:
    scene = scene_of(SLOW_SHUTTER)
    width = scene.greys[0].shape[1]
    flipped = replace(
        scene,
        greys=[np.ascontiguousarray(g[:, ::-1]) for g in scene.greys],
        hands_px=scene.hands_px * [-1, 1] + [width - 1, 0],
        target_on_right=False,
    )
    there, here = track_shaft(flipped), readings_of(SLOW_SHUTTER)
    angles = np.array([[a.angle_deg, b.angle_deg] for a, b in zip(here, there, strict=True)])
    assert np.abs(np.diff(angles, axis=1)).max() < 2.0
    assert [r.evidence for r in there] == [r.evidence for r in here]


def test_a_bay_where_nothing_moves_shows_no_shaft() -> None:
    scene = scene_of(FAST_SHUTTER)
    rng = np.random.default_rng(1)
    bay = scene.greys[0].astype(float)
    noisy = [(bay + rng.normal(0, 2, bay.shape)).clip(0, 255).astype(np.uint8) for _ in scene.greys]
    readings = track_shaft(replace(scene, greys=noisy))
    assert np.mean([r.evidence is Evidence.PATH for r in readings]) > 0.9
    assert min(r.sigma_deg for r in readings if r.evidence is Evidence.PATH) > 5


@pytest.mark.parametrize("fps", [30])
def test_a_club_that_is_not_there_is_not_seen(fps: int) -> None:
    readings = readings_of(Filming(fps, 1 / 60, with_club=False))
    assert np.mean([r.evidence is Evidence.PATH for r in readings]) > 0.5
