"""Guidance against the truth of a rendered rehearsal, and angles of drawn poses."""

from dataclasses import replace
from itertools import pairwise

import cv2
import numpy as np
import pytest

from baycue.club.background import GreyPicture
from baycue.club.still_shaft import Held, ShaftSight, StillShaft
from baycue.plan.stance import Handedness
from baycue.pose.sides import stance_in_picture
from baycue.practice.hold import Guidance
from baycue.practice.hold_watch import HoldWatch, hold_watch
from baycue.practice.posture import ARM, BUTT, SHAFT, Sight, hold_sample, windows_of
from baycue.swing.swing import CheckpointName
from tests.canned_swing import canned_swing
from tests.rehearsed_hold import held_between_s, held_glimpses, held_plan, true_at
from tests.stick_golfer import FloatArray, Pinhole, StickGolfer, mirrored, poses_of

P2, P3, P6, P8 = (CheckpointName[name] for name in ("P2", "P3", "P6", "P8"))
SIDES = [Handedness.RIGHT, Handedness.LEFT]


def watched() -> HoldWatch:
    plan = held_plan()
    assert plan.practice is not None
    return hold_watch(plan, plan.practice.blocks[0].drills[0])


@pytest.fixture(scope="module")
def guided() -> list[tuple[float, HoldWatch, Guidance]]:
    """Each moment with guidance, s."""
    watch, found = watched(), []
    for glimpse in held_glimpses():
        watch, guidance = watch.after(glimpse)
        if guidance is not None:
            found.append((glimpse.stamp_ns * 1e-9, watch, guidance))
    return found


Guided = list[tuple[float, HoldWatch, Guidance]]


class TestAgainstTheTruth:
    """12 frames a second, 640 x 360: worse than any bay's camera."""

    def test_the_club_is_seen_all_the_time_it_is_held(self, guided: Guided) -> None:
        first, last = held_between_s()
        held = [g for t, _, g in guided if first + 0.3 < t < last]
        assert len(held) > 10
        assert all(g.club_seen for g in held)

    def test_angle_and_butt_are_right_to_their_spread(self, guided: Guided) -> None:
        first, last = held_between_s()
        off = []
        for time_s, watch, _ in guided:
            if first + 0.3 < time_s < last:
                true = true_at(time_s)
                angle, butt = watch.state.recent[-1].readings
                off.append(
                    [
                        (angle.value - true.above_deg) / angle.sigma,
                        (butt.value - true.butt_m) / butt.sigma,
                    ]
                )
                assert angle.sigma < 4.0
                assert butt.sigma < 0.05
        assert np.abs(np.array(off)).max() < 2.0

    def test_on_the_way_each_look_that_sees_the_club_is_right(self, guided: Guided) -> None:
        (first, _), seen = held_between_s(), 0
        for time_s, watch, _ in guided:
            newest = watch.state.recent[-1]
            if newest.stamp_ns * 1e-9 == time_s < first and newest.club_seen:
                seen += 1
                true = true_at(time_s)
                turned = (newest.readings[0].value - true.above_deg + 180) % 360 - 180
                assert abs(turned) < 4.0
        assert seen >= 5

    def test_it_counts_once_two_seconds_after_it_began(self, guided: Guided) -> None:
        first, _ = held_between_s()
        (at_s,) = (t for t, _, g in guided if g.counts)
        assert first + 1.8 < at_s < first + 2.5

    def test_at_the_ball_nothing_counts(self, guided: Guided) -> None:
        assert not any(g.inside and g.club_seen for t, _, g in guided if t < 1.0)

    def test_between_looks_the_last_guidance_stands(self) -> None:
        watch = watched()
        for glimpse in held_glimpses()[:40]:
            watch, _ = watch.after(glimpse)
        again = replace(held_glimpses()[39], stamp_ns=held_glimpses()[39].stamp_ns + 1_000_000)
        same, guidance = watch.after(again)
        assert same.looked_ns == watch.looked_ns
        assert guidance == watch.guidance
        assert watch.after(replace(again, pose=None))[1] is None


class TestWithoutAClubInThePicture:
    def test_arm_and_hands_guide_and_nothing_counts(self) -> None:
        """The same poses before a wall that never changes: there is no club to see."""
        watch, seen = watched(), []
        for glimpse in held_glimpses():
            watch, guidance = watch.after(replace(glimpse, grey=np.full_like(glimpse.grey, 90)))
            seen.append(guidance)
        told = [g for g in seen if g is not None]
        assert told
        assert not any(g.club_seen or g.counts for g in told)
        assert min(g.sigma for g in told if g.measure is SHAFT) > 15


def sight(
    arm_deg: float,
    shaft: ShaftSight | None,
    hand: Handedness = Handedness.RIGHT,
    flipped: bool = False,
) -> Sight:
    """A drawn golfer with the lead arm at that angle."""
    swing, camera = canned_swing(), Pinhole()
    time_s = swing.when_arm(arm_deg, -0.85, -0.01)
    poses = poses_of(np.array([time_s]), swing, StickGolfer(), camera)
    stance = stance_in_picture(hand, flipped)
    if not stance.left_leads:
        poses = mirrored(poses, camera.width_px)
    scale = camera.known.focal_px / camera.distance_m
    return Sight(poses[0], shaft, stance, scale, camera.width_px)


class TestAngles:
    @pytest.mark.parametrize(
        ("at", "shaft_deg", "above_deg"),
        [(P6, -90.0, 0.0), (P6, -60.0, -30.0), (P2, -120.0, 30.0), (P8, 70.0, -20.0)],
    )
    @pytest.mark.parametrize("hand", SIDES)
    def test_above_level_is_positive(
        self, at: CheckpointName, shaft_deg: float, above_deg: float, hand: Handedness
    ) -> None:
        seen = hold_sample(at, sight(-30.0, ShaftSight(shaft_deg, 2.0), hand))
        assert seen.readings[0].measure is SHAFT
        assert seen.readings[0].value == pytest.approx(above_deg)
        assert seen.club_seen

    @pytest.mark.parametrize("hand", SIDES)
    @pytest.mark.parametrize("flipped", [False, True])
    def test_the_lead_arm_needs_no_club(self, hand: Handedness, flipped: bool) -> None:
        seen = hold_sample(P3, sight(-75.0, None, hand, flipped))
        assert seen.readings[0].measure is ARM
        assert seen.readings[0].value == pytest.approx(-15.0, abs=0.5)

    @pytest.mark.parametrize("hand", SIDES)
    def test_the_butt_is_past_the_buckle_toward_the_target(self, hand: Handedness) -> None:
        values = [
            hold_sample(P6, sight(arm, ShaftSight(-90.0, 2.0), hand)).readings[1]
            for arm in (-60.0, -40.0, -20.0)
        ]
        assert all(reading.measure is BUTT for reading in values)
        assert all(near.value > far.value + 0.05 for far, near in pairwise(values))


def test_windows_are_the_coachs() -> None:
    plan = held_plan()
    assert plan.practice is not None
    angle, butt = windows_of(plan.practice.blocks[0].drills[0])
    assert (angle.measure, angle.low, angle.high) == (SHAFT, -10.0, 10.0)
    assert (butt.measure, butt.low, butt.high) == (BUTT, -0.25, 0.25)


class TestStillShaft:
    """A drawn line about hands that move over a noisy wall."""

    @staticmethod
    def picture(hands: FloatArray, angle_deg: float, seed: int) -> GreyPicture:
        grey = np.random.default_rng(seed).normal(110, 2, (360, 640))
        step = np.array([np.sin(np.radians(angle_deg)), np.cos(np.radians(angle_deg))])
        start, end = hands + 15 * step, hands + 110 * step
        canvas = grey.clip(0, 255).astype(np.uint8)
        points = [tuple(round(v * 16) for v in p) for p in (start, end)]
        cv2.line(canvas, points[0], points[1], 190, 2, cv2.LINE_AA, 4)
        return np.asarray(canvas)

    def looked(self, moves: bool) -> list[tuple[float, ShaftSight | None]]:
        fold, seen = StillShaft(target_on_right=True), []
        for k in range(14):
            hands = np.array([400.0 - (14.0 * k if moves else 0.0), 200.0])
            angle = -20.0 - 6 * k
            held = Held(self.picture(hands, angle, k), hands, -20.0, 180.0)
            seen.append((angle, fold.look(held)))
            fold = fold.after(held)
        return seen

    def test_it_is_seen_once_the_hands_have_been_elsewhere(self) -> None:
        seen = self.looked(moves=True)
        assert seen[0][1] is None
        late = [(angle, s) for angle, s in seen[-3:] if s is not None]
        assert len(late) == 3
        assert all(abs(s.angle_deg - angle) < 2 for angle, s in late)

    def test_hands_that_never_left_tell_nothing(self) -> None:
        assert all(s is None for _, s in self.looked(moves=False))
