"""The truth sidecar of a synthetic recording: ``<clip>.truth.json``.

A version, how the clip was taken, every true swing, and per frame where joints and club
are, in metres (target-line axes, lead and trail) and in the clip's own pixels.
"""

import json
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from baycue.errors import ExistsError, TruthFileError
from baycue.synthetic.clip import Shot
from baycue.synthetic.motion import Motion
from baycue.synthetic.rig import Rig
from baycue.synthetic.scene import Moment
from baycue.synthetic.true_tracks import TrueTrack
from baycue.synthetic.truth import TrueSwing, true_swing

FloatArray = NDArray[np.float64]

VERSION = 2
"""2 added each swing's ``tracks``; files of version 1 are read and have none."""
_READABLE = (1, VERSION)
JOINTS = {
    "lead_shoulder": "upperarm_l",
    "trail_shoulder": "upperarm_r",
    "lead_elbow": "lowerarm_l",
    "trail_elbow": "lowerarm_r",
    "lead_wrist": "hand_l",
    "trail_wrist": "hand_r",
    "lead_hip": "thigh_l",
    "trail_hip": "thigh_r",
    "lead_knee": "calf_l",
    "trail_knee": "calf_r",
    "lead_ankle": "foot_l",
    "trail_ankle": "foot_r",
}
POINTS = (*JOINTS, "head_centre", "club_butt", "club_head", "ball")
"""Order of the points in every frame; a missing one is null."""


@dataclass(frozen=True, slots=True)
class TrueFrame:
    """One frame: middle of its exposure, s; ``POINTS`` in metres and in px (None: not there)."""

    time_s: float
    points_m: tuple[tuple[float, float, float] | None, ...]
    points_px: tuple[tuple[float, float] | None, ...]

    def px(self, point: str) -> tuple[float, float] | None:
        """Where a point of ``POINTS`` is in the clip, px."""
        return self.points_px[POINTS.index(point)]

    def metres(self, point: str) -> tuple[float, float, float] | None:
        """Where a point of ``POINTS`` is in the bay, metres."""
        return self.points_m[POINTS.index(point)]


@dataclass(frozen=True, slots=True)
class Truth:
    """Everything known of a synthetic recording.

    ``handedness`` and ``view`` as in ``baycue.plan.stance``; ``mirrored``: the picture is
    flipped left to right.
    """

    recipe: str
    shows: str
    fps: float
    shutter_s: float
    width_px: int
    height_px: int
    field_of_view_deg: float
    handedness: str
    view: str
    mirrored: bool
    body: str
    stature_m: float
    swings: tuple[TrueSwing, ...]
    frames: tuple[TrueFrame, ...]


def truth_of(recipe: str, shows: str, shot: Shot, motion: Motion) -> Truth:
    """The truth of a shot of a motion."""
    camera = shot.camera
    count = max(1, round(motion.duration_s * shot.fps))
    return Truth(
        recipe=recipe,
        shows=shows,
        fps=shot.fps,
        shutter_s=shot.shutter_s,
        width_px=camera.width_px,
        height_px=camera.height_px,
        field_of_view_deg=camera.field_of_view_deg,
        handedness=camera.handedness.value,
        view=camera.view.value,
        mirrored=shot.mirrored,
        body=shot.body.name,
        stature_m=round(shot.body.stature_m, 4),
        swings=tuple(
            true_swing(swing, number, zero_s)
            for number, (zero_s, swing) in enumerate(motion.swings, start=1)
        ),
        frames=tuple(_frame(shot, motion, shot.time_s(i)) for i in range(count)),
    )


def points_of(rig: Rig, moment: Moment) -> list[FloatArray | None]:
    """Every one of ``POINTS`` at a moment, (3,) metres."""
    points: list[FloatArray | None] = [None] * (len(JOINTS) + 1)
    if moment.bones is not None:
        points = [moment.bones[rig.index[bone], :3, 3] for bone in JOINTS.values()]
        points.append(_head_centre(rig, moment.bones))
    if moment.club is None:
        return [*points, None, None, moment.ball_m]
    return [*points, moment.club.butt_m, moment.club.head_m, moment.ball_m]


def _head_centre(rig: Rig, bones: FloatArray) -> FloatArray:
    head = rig.index["head"]
    turn = bones[head, :3, :3] @ rig.turns[head].T
    return np.asarray(bones[head, :3, 3] + turn @ rig.head_centre_offset())


def _frame(shot: Shot, motion: Motion, time_s: float) -> TrueFrame:
    points = points_of(Rig(shot.body), motion.moment_at(time_s))
    metres = tuple(None if p is None else _rounded(p, 4) for p in points)
    px = tuple(
        None if p is None else _rounded(shot.picture_px(np.asarray(p)[None])[0], 1) for p in points
    )
    return TrueFrame(round(time_s, 6), metres, px)  # type: ignore[arg-type]


def _rounded(values: FloatArray, digits: int) -> tuple[float, ...]:
    return tuple(round(float(v), digits) for v in values)


def write_truth(path: Path, truth: Truth) -> None:
    """Write the sidecar; raises OutputError if it exists already."""
    if path.exists():
        raise ExistsError(f"{path} exists already; nothing is overwritten")
    document = {"version": VERSION, "points": POINTS, **asdict(truth)}
    frames = document.pop("frames")
    head = json.dumps(document, indent=1)
    rows = ",\n".join(json.dumps(frame, separators=(",", ":")) for frame in frames)
    path.write_text(f'{head[:-2]},\n "frames": [\n{rows}\n]}}\n', encoding="utf-8")


def read_truth(path: Path) -> Truth:
    """Read a sidecar; raises RecordingError if it is not one of a version that is known."""
    try:
        document: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
        if (version := document.pop("version")) not in _READABLE:
            known = " and ".join(str(number) for number in _READABLE)
            raise TruthFileError(f"{path} is truth version {version}; {known} are known")
        if tuple(document.pop("points")) != POINTS:
            raise TruthFileError(f"{path} has other points than {', '.join(POINTS)}")
        swings = tuple(_read_swing(swing) for swing in document.pop("swings"))
        frames = tuple(_read_frame(frame) for frame in document.pop("frames"))
        return Truth(**document, swings=swings, frames=frames)
    except (OSError, ValueError, KeyError, TypeError, AttributeError) as error:
        raise TruthFileError(f"{path} is not a truth file: {error}") from error


def _read_swing(swing: dict[str, Any]) -> TrueSwing:
    tracks = {name: TrueTrack(**track) for name, track in swing.pop("tracks", {}).items()}
    return TrueSwing(**swing, tracks=tracks)


def _read_frame(frame: dict[str, Any]) -> TrueFrame:
    metres = tuple(None if p is None else tuple(p) for p in frame["points_m"])
    px = tuple(None if p is None else tuple(p) for p in frame["points_px"])
    return TrueFrame(frame["time_s"], metres, px)
