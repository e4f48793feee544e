"""Is the golfer the way round that the plan says: handedness and mirroring?"""

from collections.abc import Sequence

import numpy as np

from baycue.plan.stance import Handedness, View
from baycue.pose.pose import Landmark, Pose
from baycue.setup.looked import Looked
from baycue.setup.report import Answer, SetUpRow
from baycue.swing.hands import hand_sample

_CLEARLY_LOWER = 0.008
"""Body units; the trail hand was 0.013 to 0.057 lower on rendered golfers, landmarks jitter by
0.01 a frame."""
_RAISED, _DOWN = 0.1, 0.1
_RAISED_SHARE = 0.15


def handedness(looked: Looked) -> SetUpRow:
    """The trail hand is the lower one on the grip, so the picture tells which side leads."""
    if looked.plan.view is not View.FACE_ON or not looked.at_address:
        return SetUpRow(
            "handedness", Answer.UNSURE, "not seen at the ball face-on", "Stand at the ball."
        )
    lower = trail_hand_lower(looked.at_address, looked.stance.trail.wrist)
    hand = looked.plan.handedness.value
    mirrored = "mirrored" if looked.plan.camera.mirrored else "not mirrored"
    if lower > _CLEARLY_LOWER:
        return SetUpRow("handedness", Answer.GO, f"{hand}-handed, {mirrored}, as the plan says")
    if lower > -_CLEARLY_LOWER:
        return SetUpRow(
            "handedness", Answer.UNSURE, "both hands about as low", "Raise your left hand."
        )
    other = Handedness.LEFT if looked.plan.handedness is Handedness.RIGHT else Handedness.RIGHT
    found = f"the hands are the other way round than {hand}-handed and {mirrored}"
    do = f"Set handedness: {other.value} if the golfer is, else turn mirrored round."
    return SetUpRow("handedness", Answer.NO_GO, found, do)


def mirroring(looked: Looked) -> SetUpRow:
    """Whether the picture is mirrored, told by a raised left hand."""
    hand = raised_hand(looked.poses)
    if hand is None:
        return SetUpRow("mirrored", Answer.UNSURE, "no hand was raised", "Raise your left hand.")
    seen = hand is Landmark.RIGHT_WRIST
    found = "mirrored" if seen else "not mirrored"
    if seen == looked.plan.camera.mirrored:
        return SetUpRow("mirrored", Answer.GO, f"{found}, as the plan says")
    do = f"If that was the left hand, set mirrored: {'true' if seen else 'false'}."
    return SetUpRow("mirrored", Answer.NO_GO, f"the picture is {found}", do)


def trail_hand_lower(poses: Sequence[Pose], trail_wrist: Landmark) -> float:
    """How much lower the trail wrist is than the other, body units."""
    right = [
        (p.pixel(Landmark.RIGHT_WRIST)[1] - p.pixel(Landmark.LEFT_WRIST)[1])
        / hand_sample(p).body_px
        for p in poses
    ]
    side = 1 if trail_wrist is Landmark.RIGHT_WRIST else -1
    return side * float(np.median(right))


def raised_hand(poses: Sequence[Pose]) -> Landmark | None:
    """The wrist, as the picture shows it, held above the nose while the other hangs low."""
    for one, other in (
        (Landmark.LEFT_WRIST, Landmark.RIGHT_WRIST),
        (Landmark.RIGHT_WRIST, Landmark.LEFT_WRIST),
    ):
        raised = [_is_raised(p, one) and _hangs(p, other) for p in poses]
        if raised and np.mean(raised) >= _RAISED_SHARE:
            return one
    return None


def _is_raised(pose: Pose, wrist: Landmark) -> bool:
    above = pose.pixel(Landmark.NOSE)[1] - pose.pixel(wrist)[1]
    return bool(above > _RAISED * hand_sample(pose).body_px)


def _hangs(pose: Pose, wrist: Landmark) -> bool:
    shoulders = pose.pixels[[Landmark.LEFT_SHOULDER, Landmark.RIGHT_SHOULDER], 1].mean()
    return bool(pose.pixel(wrist)[1] - shoulders > _DOWN * hand_sample(pose).body_px)
