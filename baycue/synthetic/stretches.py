"""Stretching with the hands apart: overhead, side bends, trunk turns; with or without a club."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.arms import put_arm
from baycue.synthetic.body_keys import BodyKey, key_from
from baycue.synthetic.curves import Curve, resting_curve
from baycue.synthetic.hold import elbow_pole, mid_shoulder
from baycue.synthetic.idle_motion import upright
from baycue.synthetic.posture import Hand
from baycue.synthetic.rotations import unit
from baycue.synthetic.scene import Body, ClubPose, Moment
from baycue.synthetic.skeleton import Skeleton
from baycue.synthetic.stance import standing
from baycue.synthetic.swing_motion import SwingMotion

FloatArray = NDArray[np.float64]

_BODY_NUMBERS = 20
_BUTT_BEYOND_M = 0.16

ArmLengths = tuple[float, float, float]

DOWN_BESIDE: ArmLengths = (0.52, -0.88, 0.12)
DOWN_IN_FRONT: ArmLengths = (0.58, -0.76, 0.30)
OVERHEAD: ArmLengths = (0.55, 0.90, 0.10)
FORWARD: ArmLengths = (0.58, -0.05, 0.88)
BEHIND_THE_NECK: ArmLengths = (0.82, 0.16, -0.14)
ON_THE_HIPS: ArmLengths = (0.46, -0.72, 0.10)


@dataclass(frozen=True, slots=True)
class Posture:
    """A body, and the wrist of the lead side in arm's lengths from mid-shoulder.

    In the chest's own axes: to its lead side, up, forward; the trail side mirrors it.
    """

    time_s: float
    body: BodyKey
    wrist: ArmLengths


@dataclass(frozen=True, slots=True, eq=False)
class Stretch:
    """A smooth curve through postures; the hands are apart.

    ``with_club``: both hands hold it, its head on the lead side.
    """

    swing: SwingMotion
    postures: tuple[Posture, ...]
    with_club: bool
    _curve: Curve = field(init=False, repr=False)

    def __post_init__(self) -> None:
        rows = np.array([[*p.body.vector(), *p.wrist] for p in self.postures])
        object.__setattr__(self, "_curve", resting_curve([p.time_s for p in self.postures], rows))

    @property
    def body(self) -> Body:
        """The golfer's body."""
        return self.swing.body

    @property
    def duration_s(self) -> float:
        """Until the last posture."""
        return self.postures[-1].time_s

    @property
    def swings(self) -> tuple[tuple[float, SwingMotion], ...]:
        """None."""
        return ()

    def moment_at(self, time_s: float) -> Moment:
        """Everything that moves at a time."""
        row = self._curve(time_s)
        skeleton = standing(self.swing.rig, self.swing.stance, key_from(row[:_BODY_NUMBERS]))
        wrist_m = self.swing.rig.arms["l"].length_m * row[_BODY_NUMBERS:]
        ends = {side: self._put(skeleton, side, wrist_m) for side in ("l", "r")}
        club = self._club(ends["l"], ends["r"]) if self.with_club else None
        return Moment(skeleton.transforms(), club, self.swing.ball_at(0.0))

    def _put(self, skeleton: Skeleton, side: str, wrist_m: FloatArray) -> FloatArray:
        mirrored = wrist_m * np.array([1.0 if side == "l" else -1.0, 1.0, 1.0])
        at_m = mid_shoulder(skeleton) + skeleton.turn_of("spine_03") @ mirrored
        curl = 0.9 if self.with_club else 0.35
        put_arm(skeleton, side, Hand(at_m, None, elbow_pole(skeleton, side), curl))
        hand_m = 0.7 * self.swing.rig.hands[side].knuckle_m
        rest = self.swing.rig.hands[side].along
        return skeleton.head_of(f"hand_{side}") + hand_m * (skeleton.turn_of(f"hand_{side}") @ rest)

    def _club(self, lead_m: FloatArray, trail_m: FloatArray) -> ClubPose:
        along = unit(lead_m - trail_m)
        butt_m = trail_m - _BUTT_BEYOND_M * along
        face = unit(np.array([0.0, 0.0, 1.0]) - along * along[2])
        return ClubPose(butt_m, butt_m + self.swing.style.club_held.length_m * along, face)


def arms_overhead(swing: SwingMotion, with_club: bool, hold_s: float = 1.5) -> Stretch:
    """Arms up and down again."""
    body = upright(swing)
    tall = replace(body, chest_bend_deg=-4.0, pelvis_bend_deg=0.0, head_bend_deg=-6.0)
    steps = [(DOWN_IN_FRONT, body), (FORWARD, body), (OVERHEAD, tall), (OVERHEAD, tall)]
    return _through(
        swing,
        [*steps, (FORWARD, body), (DOWN_IN_FRONT, body)],
        [0.9, 0.9, hold_s, 0.8, 0.8],
        with_club,
    )


def side_bends(swing: SwingMotion, with_club: bool, lean_deg: float = 26.0) -> Stretch:
    """Arms up, lean to one side and to the other, arms down."""
    body = upright(swing)
    left, right = (_leaning(body, sign * lean_deg) for sign in (-1.0, 1.0))
    steps = [(DOWN_IN_FRONT, body), (OVERHEAD, body), (OVERHEAD, left), (OVERHEAD, left)]
    return _through(
        swing,
        [*steps, (OVERHEAD, right), (OVERHEAD, right), (OVERHEAD, body), (DOWN_IN_FRONT, body)],
        [1.6, 1.2, 0.8, 1.8, 0.8, 1.0, 1.5],
        with_club,
    )


def trunk_turns(swing: SwingMotion, with_club: bool, turn_deg: float = 65.0) -> Stretch:
    """The club across the shoulders (or the hands on the hips), turn one way and the other."""
    body = upright(swing)
    back, through = (_turned(body, sign * turn_deg) for sign in (-1.0, 1.0))
    place = BEHIND_THE_NECK if with_club else ON_THE_HIPS
    turns = [(place, body), (place, back), (place, through), (place, back), (place, through)]
    return _through(
        swing, [*turns, (place, body), (place, body)], [0.9, 1.3, 1.2, 1.2, 0.9, 0.8], with_club
    )


def idling(swing: SwingMotion, look_deg: float = 35.0) -> Stretch:
    """Nothing in the hands: arms hanging, looking about, hands to the hips and down again."""
    body = upright(swing)
    looking = replace(body, head_turn_deg=look_deg, chest_turn_deg=10.0, hips_x_m=0.03)
    steps = [(DOWN_BESIDE, body), (DOWN_BESIDE, looking), (DOWN_BESIDE, looking)]
    return _through(
        swing,
        [*steps, (ON_THE_HIPS, body), (ON_THE_HIPS, body), (DOWN_BESIDE, body)],
        [1.2, 1.8, 1.4, 2.0, 1.3],
        with_club=False,
    )


def _through(
    swing: SwingMotion,
    steps: Sequence[tuple[ArmLengths, BodyKey]],
    waits_s: Sequence[float],
    with_club: bool,
) -> Stretch:
    times_s = np.concatenate([[0.0], np.cumsum(waits_s)])
    postures = [
        Posture(float(t), body, wrist) for t, (wrist, body) in zip(times_s, steps, strict=True)
    ]
    return Stretch(swing, tuple(postures), with_club)


def _leaning(body: BodyKey, lean_deg: float) -> BodyKey:
    """Positive leans to the trail side, the hips going the other way."""
    return replace(
        body,
        chest_side_deg=lean_deg,
        pelvis_side_deg=0.3 * lean_deg,
        head_side_deg=0.8 * lean_deg,
        hips_x_m=0.002 * lean_deg,
    )


def _turned(body: BodyKey, turn_deg: float) -> BodyKey:
    return replace(
        body,
        chest_turn_deg=turn_deg,
        pelvis_turn_deg=0.4 * turn_deg,
        head_turn_deg=0.8 * turn_deg,
    )
