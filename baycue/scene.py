"""Can this swing be judged from this picture?  If not: what is wrong and what to do."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from baycue.plan.plan import Plan
from baycue.plan.stance import Handedness, View
from baycue.pose.framing import BodyPart, parts_cut_off
from baycue.pose.pose import Pose
from baycue.pose.presence import mid_hip
from baycue.pose.sides import LEFT, RIGHT, Stance
from baycue.swing.events import StrikeSeen
from baycue.swing.hands import FloatArray, bodies_px, grips_px

_CLEARLY_BODIES = 0.06
_NARROWEST_FACE_ON, _WIDEST_FROM_BEHIND = 0.10, 0.22
"""Shoulder width at address, body units."""
_FEWEST_FPS = 12.0
"""Half of the least rate of a recording: on the way, and on a busy machine, some may be lost."""
_WIDEST_BRIDGE_NS = 110_000_000
"""Between two poses with the ball between them, the frames between being there.  On two samples at
30 frames a second two skipped poses moved no value by more than 1.6 of its sigma, three by 2.3."""
_REMEDY = {
    BodyPart.FEET: "tilt the camera down or move it back until both feet show",
    BodyPart.HEAD: "tilt the camera up or move it back until the whole head shows",
    BodyPart.HANDS: "move the camera back until the hands show throughout",
}


@dataclass(frozen=True, slots=True)
class PictureSize:
    """Width and height, px."""

    width_px: int
    height_px: int


def why_unscorable(
    strike: StrikeSeen, poses: tuple[Pose, ...], plan: Plan, stance: Stance, size: PictureSize
) -> str | None:
    """One sentence on what is wrong and what to do, or None if the swing can be judged."""
    return (
        _cut_off(strike, poses, size)
        or _other_view(strike, poses, plan.view)
        or _other_way_round(strike, poses, plan, stance)
    )


def why_too_few(strike: StrikeSeen, stamps_ns: Sequence[int]) -> str | None:
    """One sentence if too few pictures came between takeaway and the hands' return, or None."""
    swung = [s for s in stamps_ns if strike.takeaway_ns <= s <= strike.return_ns]
    span_s = (swung[-1] - swung[0]) / 1e9 if len(swung) > 1 else 0.0
    fps = (len(swung) - 1) / span_s if span_s > 0 else 0.0
    if fps >= _FEWEST_FPS:
        return None
    return (
        f"only {fps:.0f} pictures a second came while the club was moving, and 24 are needed; more "
        "light, another setting of the camera or a better network may help"
    )


def why_unseen(strike: StrikeSeen, seen_ns: Sequence[int]) -> str | None:
    """One sentence if the hands passed the ball unseen, or None.  ``seen_ns``: of the looks."""
    if strike.unseen_ns is None:
        return None
    since_ns, until_ns = strike.unseen_ns
    bridged = any(since_ns < s < until_ns for s in seen_ns)
    if bridged and until_ns - since_ns <= _WIDEST_BRIDGE_NS:
        return None
    return (
        f"for {(until_ns - since_ns) / 1e9:.1f} s, as the club came to the ball, no picture could "
        "be looked at; close other programs, or try a better network or cable to the camera"
    )


def _cut_off(strike: StrikeSeen, poses: tuple[Pose, ...], size: PictureSize) -> str | None:
    at_address = [p for p in poses if p.stamp_ns <= strike.takeaway_ns] or poses[:1]
    cut = [parts_cut_off(p, size.width_px, size.height_px) for p in at_address]
    for part, remedy in _REMEDY.items():
        if np.mean([part in parts for parts in cut]) > 0.5:
            return f"the golfer's {part.value} cut off by the picture's edge; {remedy}"
    return None


def _other_view(strike: StrikeSeen, poses: tuple[Pose, ...], view: View) -> str | None:
    """Whether the shoulders at address look as wide as they do from where the plan says."""
    before = [p for p in poses if p.stamp_ns <= strike.takeaway_ns] or list(poses[:1])
    width = float(np.median(_shoulder_widths_bodies(before)))
    face_on = view is View.FACE_ON
    if (width >= _NARROWEST_FACE_ON) if face_on else (width <= _WIDEST_FROM_BEHIND):
        return None
    seen = View.DOWN_THE_LINE if face_on else View.FACE_ON
    return (
        f"the golfer is seen {seen.value}, but the plan says {view.value}; move the camera, "
        f"or set view: {seen.value} and targets that this view shows"
    )


def _shoulder_widths_bodies(poses: Sequence[Pose]) -> FloatArray:
    across_px = [p.pixels[LEFT.shoulder, 0] - p.pixels[RIGHT.shoulder, 0] for p in poses]
    return np.abs(across_px) / bodies_px(poses)


def _other_way_round(
    strike: StrikeSeen, poses: tuple[Pose, ...], plan: Plan, stance: Stance
) -> str | None:
    """Whether the swing goes the way that plan and mirroring say it should."""
    side = _trail_side_bodies(strike, poses, plan.view) * stance.toward_target
    if side > -_CLEARLY_BODIES:
        return None
    other = Handedness.LEFT if plan.handedness is Handedness.RIGHT else Handedness.RIGHT
    mirrored = "mirrored" if plan.camera.mirrored else "not mirrored"
    return (
        f"the swing goes the other way: the plan says {plan.handedness.value}-handed and "
        f"{mirrored}; set handedness: {other.value} if the golfer is, else turn mirrored round"
    )


def _trail_side_bodies(strike: StrikeSeen, poses: tuple[Pose, ...], view: View) -> float:
    """How far something that is on the trail side lies to the picture's left, body units.

    Face-on the hands at the top lie to the trail side of address.  From behind, down the
    line, the hands at address lie on the side of a right-hander's ball, the right.
    """
    before = [p for p in poses if p.stamp_ns <= strike.takeaway_ns] or list(poses[:1])
    body_px = float(bodies_px(before[-1:])[0])
    if view is View.DOWN_THE_LINE:
        hips_px = np.array([mid_hip(p)[0] for p in before])
        return float(np.median(grips_px(before)[:, 0] - hips_px)) / body_px
    back = [p for p in poses if strike.takeaway_ns < p.stamp_ns <= strike.top_ns]
    home_px, back_px = (float(np.median(grips_px(some)[:, 0])) for some in (before, back))
    return (home_px - back_px) / body_px
