"""Glimpse by glimpse from pictures and poses to guidance: the club, the angles, the hold."""

from dataclasses import dataclass, replace

import numpy as np

from baycue.club.scenes import SHRINK
from baycue.club.still_shaft import Held, StillShaft
from baycue.glimpse import Glimpse
from baycue.measures.scale import px_per_m_by_body
from baycue.plan.plan import Plan
from baycue.plan.practice_block import PracticeDrill
from baycue.pose.pose import Pose
from baycue.pose.sides import Stance, stance_in_picture
from baycue.pose.untangle import untangled
from baycue.practice.hold import Guidance, HoldState
from baycue.practice.posture import Sight, hold_sample, needs_the_club, windows_of
from baycue.swing.arms import lead_arm_deg
from baycue.swing.hands import grip_px, hand_sample
from baycue.swing.swing import CheckpointName

_SCALES_KEPT = 25
_LOOK_EVERY_NS = 90_000_000
"""A look takes about as long as finding a pose, and who holds still hardly moves."""


@dataclass(frozen=True, slots=True, eq=False)
class HoldWatch:
    """What is remembered of a golfer who rehearses one checkpoint; ``after`` takes a glimpse."""

    at: CheckpointName
    stance: Stance
    stature_m: float
    club_wanted: bool
    shaft: StillShaft
    state: HoldState
    scales: tuple[float, ...] = ()
    looked_ns: int = 0
    guidance: Guidance | None = None

    def after(self, glimpse: Glimpse) -> tuple["HoldWatch", Guidance | None]:
        """One glimpse on, and where the golfer is; None if nobody is seen.

        Between looks the last guidance stands, but for ``counts``, which is told once.
        """
        if glimpse.pose is None:
            return replace(self, guidance=None), None
        pose = untangled(glimpse.pose)
        held = self._held(glimpse, pose)
        watch = replace(self, shaft=self.shaft.after(held) if self.club_wanted else self.shaft)
        if glimpse.stamp_ns < self.looked_ns + _LOOK_EVERY_NS:
            return watch, self.guidance and replace(self.guidance, counts=False)
        return watch._looked(glimpse, pose, held)

    def _looked(
        self, glimpse: Glimpse, pose: Pose, held: Held
    ) -> tuple["HoldWatch", Guidance | None]:
        scales = (*self.scales[1 - _SCALES_KEPT :], px_per_m_by_body([pose], self.stature_m))
        seen = self.shaft.look(held) if self.club_wanted else None
        sight = Sight(pose, seen, self.stance, float(np.median(scales)), glimpse.width_px)
        sample = hold_sample(self.at, sight)
        sample = replace(sample, club_seen=sample.club_seen or not self.club_wanted)
        state, guidance = self.state.after(sample)
        watch = replace(self, state=state, scales=scales, guidance=guidance)
        return replace(watch, looked_ns=glimpse.stamp_ns), guidance

    def _held(self, glimpse: Glimpse, pose: Pose) -> Held:
        arm_deg = float(lead_arm_deg((pose,), self.stance)[0])
        body_px = hand_sample(pose).body_px / SHRINK
        return Held(glimpse.grey, grip_px(pose) / SHRINK, arm_deg, body_px)


def hold_watch(plan: Plan, drill: PracticeDrill) -> HoldWatch:
    """At the start of a hold that a plan asks for."""
    assert drill.at is not None, "plans are checked: a hold has its checkpoint and time"
    assert drill.hold is not None
    stance, windows = stance_in_picture(plan.handedness, plan.camera.mirrored), windows_of(drill)
    return HoldWatch(
        drill.at,
        stance,
        plan.stature_m,
        needs_the_club(windows),
        StillShaft(stance.toward_target > 0),
        HoldState(windows, drill.hold),
    )
