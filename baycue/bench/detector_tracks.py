"""Where the detector saw each joint of a drawn swing, and where the joint was."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from baycue.bench.population import Draw
from baycue.bench.render import render
from baycue.bench.staging import Staged
from baycue.capture.frame import Frame
from baycue.capture.recording import RecordingSource
from baycue.pose.landmarker import MediaPipePose
from baycue.pose.pose import Landmark, Pose
from baycue.pose.sides import Stance, stance_in_picture
from baycue.pose.untangle import untangled
from baycue.pose.video_model import bodies_in
from baycue.synthetic.rig import Rig
from baycue.synthetic.scene import Body, Moment
from baycue.synthetic.truth_file import JOINTS as BONES
from baycue.synthetic.truth_file import points_of

FloatArray = NDArray[np.float64]

JOINTS = ("nose", *BONES)
"""Order of the joints in every track."""
TRUE_STEP_S = 0.001
AROUND_S = 0.1
"""The truth reaches this far beyond top and impact, so that tracks can be shifted in time."""


class Clock(StrEnum):
    """What MediaPipe is told of the time between pictures.

    ``TRUE``: the recording's own stamps, so that it smooths.  ``UNSMOOTHED``: as Baycue does.
    ``ALONE``: nothing; each picture is looked at on its own (its image mode).
    """

    TRUE = "true stamps"
    UNSMOOTHED = "as Baycue does"
    ALONE = "each picture alone"


@dataclass(frozen=True, slots=True, eq=False)
class Tracks:
    """One swing; J joints in the order of ``JOINTS``, everything in the clip's pixels.

    ``times_s``: (F,) middles of the exposures.  ``seen_px``: by clock (F, J, 2), NaN where no
    body was seen.  ``true_px``: (F, J, 2) at those times.  ``fine_s``, ``fine_px``: (N,) and
    (N, J, 2), the truth in small steps from before the top till after impact.
    ``stature_px``: the golfer's stature in the picture.  ``toward_target``: sign of picture x.
    """

    name: str
    fps: float
    stature_px: float
    toward_target: int
    still_until_s: float
    top_s: float
    impact_s: float
    times_s: FloatArray
    seen_px: dict[Clock, FloatArray]
    true_px: FloatArray
    fine_s: FloatArray
    fine_px: FloatArray


def tracks_of(draw: Draw, stage: Staged, clip: Path) -> Tracks:
    """Render the draw to ``clip`` and follow the joints in it, by every clock."""
    render(stage, clip)
    stance = stance_in_picture(draw.camera.handedness, draw.mirrored)
    found = {clock: poses_in(clip, clock) for clock in Clock}
    count = len(found[Clock.ALONE])
    times_s = np.array([stage.shot.time_s(index) for index in range(count)])
    true_s = stage.truth.checkpoints_s
    fine_s = np.arange(true_s["top"] - AROUND_S, true_s["impact"] + AROUND_S, TRUE_STEP_S)
    return Tracks(
        name=f"swing {draw.number} of seed {draw.seed}, {draw.fps:g} fps",
        fps=draw.fps,
        stature_px=_stature_px(stage),
        toward_target=stance.toward_target,
        still_until_s=true_s["takeaway"],
        top_s=true_s["top"],
        impact_s=true_s["impact"],
        times_s=times_s,
        seen_px={clock: seen_joints(poses, stance) for clock, poses in found.items()},
        true_px=_true_joints(stage, times_s),
        fine_s=fine_s,
        fine_px=_true_joints(stage, fine_s),
    )


def poses_in(clip: Path, clock: Clock) -> list[Pose | None]:
    """The body in every frame of a clip, or None."""
    with RecordingSource(clip) as source:
        if clock is Clock.ALONE:
            return [bodies[0] if bodies else None for bodies in bodies_in(source, most=1)]
        return _followed(source, clock)


def _followed(frames: Iterable[Frame], clock: Clock) -> list[Pose | None]:
    estimator = MediaPipePose(step_ms=None) if clock is Clock.TRUE else MediaPipePose()
    with estimator:
        return [estimator.estimate(frame) for frame in frames]


def seen_joints(poses: list[Pose | None], stance: Stance) -> FloatArray:
    """(F, J, 2) px; sides that the detector exchanged are put right, as Baycue does."""
    lead, trail = stance.lead, stance.trail
    landmarks = [
        Landmark.NOSE,
        *(lead.shoulder, trail.shoulder, lead.elbow, trail.elbow, lead.wrist, trail.wrist),
        *(lead.hip, trail.hip, lead.knee, trail.knee, lead.ankle, trail.ankle),
    ]
    unseen = np.full((len(JOINTS), 2), np.nan)
    rows = [unseen if pose is None else untangled(pose).pixels[landmarks] for pose in poses]
    return np.array(rows).reshape(-1, len(JOINTS), 2)


def nose_at(body: Body, moment: Moment) -> FloatArray:
    """(3,) the tip of the nose: at rest, the foremost skin of the head."""
    assert moment.bones is not None
    head = body.bone("head")
    mostly_head = (body.skin_weights * (body.skin_bones == head)).sum(axis=1) > 0.5
    tip_m = body.vertices_m[mostly_head][np.argmax(body.vertices_m[mostly_head, 2])]
    from_head = np.linalg.inv(body.bone_rest[head]) @ np.append(tip_m, 1.0)
    return np.asarray((moment.bones[head] @ from_head)[:3])


def _true_joints(stage: Staged, times_s: FloatArray) -> FloatArray:
    rig = Rig(stage.shot.body)
    return np.array([_joints_px(stage, rig, float(time_s)) for time_s in times_s])


def _joints_px(stage: Staged, rig: Rig, time_s: float) -> FloatArray:
    moment = stage.motion.moment_at(time_s)
    joints = [p for p in points_of(rig, moment)[: len(BONES)] if p is not None]
    return stage.shot.picture_px(np.array([nose_at(rig.body, moment), *joints]))


def _stature_px(stage: Staged) -> float:
    ends = np.array([[0.0, 0.0, 0.0], [0.0, stage.shot.body.stature_m, 0.0]])
    soles, crown = stage.shot.picture_px(ends)
    return float(np.linalg.norm(crown - soles))


def write_tracks(path: Path, tracks: Tracks) -> None:
    """Keep tracks on disk; a file that is there is written anew."""
    path.parent.mkdir(parents=True, exist_ok=True)
    partial = path.with_suffix(".partial.npz")
    kept: dict[str, Any] = {
        name: getattr(tracks, name) for name in Tracks.__slots__ if name != "seen_px"
    }
    kept |= {f"seen {clock.value}": px for clock, px in tracks.seen_px.items()}
    np.savez_compressed(partial, **kept)
    partial.replace(path)


def read_tracks(path: Path) -> Tracks:
    """Tracks kept by ``write_tracks``."""
    with np.load(path) as kept:
        return Tracks(
            name=str(kept["name"]),
            fps=float(kept["fps"]),
            stature_px=float(kept["stature_px"]),
            toward_target=int(kept["toward_target"]),
            still_until_s=float(kept["still_until_s"]),
            top_s=float(kept["top_s"]),
            impact_s=float(kept["impact_s"]),
            times_s=kept["times_s"],
            seen_px={clock: kept[f"seen {clock.value}"] for clock in Clock},
            true_px=kept["true_px"],
            fine_s=kept["fine_s"],
            fine_px=kept["fine_px"],
        )
