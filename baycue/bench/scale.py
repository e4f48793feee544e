"""How right the scale is by stature, by a stick and by a board, on still golfers at address.

The golfers and cameras are the bench's own population; the rulers are put where and as well as
people would (common practice, no source): the board within 4 cm of the ankles' line, turned by
3 and leaning by 2 degrees (one-sigma), the stick 2 to 10 cm before the toes and off the target
line by 2 degrees.
"""

import tempfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import islice
from pathlib import Path

import numpy as np

from baycue.bay.board_pose import board_pose
from baycue.bay.board_watch import BoardWatch
from baycue.bay.level import Level, camera_level
from baycue.bay.stick_pose import stick_pose
from baycue.bench.coach import plan_for
from baycue.bench.population import Draw, draw
from baycue.bench.render import CRF, frames
from baycue.bench.staging import Staged, staged
from baycue.capture.clip_writer import ClipWriter
from baycue.capture.recording import RecordingSource
from baycue.club.scenes import SHRINK
from baycue.find_ruler import find_ruler
from baycue.glimpse import Glimpse, glimpses
from baycue.measures.evidence import Camera, SwingEvidence
from baycue.measures.scale import Told, by_ruler, scale_of
from baycue.plan.camera_facts import ScaleBy
from baycue.plan.plan import Plan, PlanScale
from baycue.pose.landmarker import MediaPipePose
from baycue.pose.sides import stance_in_picture
from baycue.swing.swing import Checkpoint, CheckpointName, Swing
from baycue.synthetic.figure import to_bay
from baycue.synthetic.rulers import LyingStick, StandingBoard

_FRAMES = 24
_BESIDE_M = 0.24
_TOE_TIP_M = 0.08


@dataclass(frozen=True, slots=True)
class ScaleTold:
    """What one way told of one draw; errors as shares of the truth and deg, None if unseen.

    ``alone``: the ruler without the stature; ``sigmas``: the error used over its one-sigma.
    """

    number: int
    by: ScaleBy
    used: float
    sigmas: float
    alone: float | None
    yaw_deg: float | None
    yaw_sigmas: float | None


@dataclass(frozen=True, slots=True)
class ScaleFigures:
    """One way over all draws: shares; root mean squares unless named otherwise."""

    by: ScaleBy
    draws: int
    found: int
    used_rms: float
    used_mean: float
    sigmas_rms: float
    alone_rms: float
    alone_mean: float
    yaw_rms_deg: float
    yaw_sigmas_rms: float


def scale_told(seed: int, number: int) -> Iterator[ScaleTold]:
    """Film a golfer at address with board and stick, and ask the scale each way."""
    drawn = replace(draw(seed, number), walker=None, fps=30.0)
    stage = _with_rulers(staged(drawn), np.random.default_rng([seed, number, 7]))
    seen = _seen(stage, drawn.mirrored)
    if not any(g.pose for g in seen):
        return
    true_px_per_m = _true_px_per_m(stage)
    for by in ScaleBy:
        evidence = _evidence(drawn, seen, by)
        scale, alone = scale_of(evidence), by_ruler(evidence)
        error = scale.px_per_m / true_px_per_m - 1
        turned = _turned(evidence, drawn)
        yield ScaleTold(
            number,
            by,
            error,
            error / scale.sigma_share,
            None if alone is None else _off(alone, true_px_per_m),
            *turned,
        )


def figures(told: Iterable[ScaleTold]) -> list[ScaleFigures]:
    """Each way's figures."""
    every = list(told)
    return [_figures(by, [t for t in every if t.by is by]) for by in ScaleBy]


def _figures(by: ScaleBy, told: list[ScaleTold]) -> ScaleFigures:
    alone = [t.alone for t in told if t.alone is not None]
    return ScaleFigures(
        by=by,
        draws=len(told),
        found=len(alone),
        used_rms=_rms([t.used for t in told]),
        used_mean=_mean([t.used for t in told]),
        sigmas_rms=_rms([t.sigmas for t in told]),
        alone_rms=_rms(alone),
        alone_mean=_mean(alone),
        yaw_rms_deg=_rms([t.yaw_deg for t in told if t.yaw_deg is not None]),
        yaw_sigmas_rms=_rms([t.yaw_sigmas for t in told if t.yaw_sigmas is not None]),
    )


def _rms(values: list[float]) -> float:
    return float(np.sqrt(np.mean(np.square(values)))) if values else float("nan")


def _mean(values: list[float]) -> float:
    return float(np.mean(values)) if values else float("nan")


def _off(told: Told, true_px_per_m: float) -> float:
    return told.px_per_m / true_px_per_m - 1


def _with_rulers(stage: Staged, rng: np.random.Generator) -> Staged:
    bones = stage.motion.moment_at(0.0).bones
    assert bones is not None
    names = stage.shot.body.bone_names
    ankle, toe = (bones[names.index(name), :3, 3] for name in ("foot_l", "ball_l"))
    gap_m = rng.uniform(0.02, 0.10)
    board = StandingBoard(
        (float(ankle[0]) + _BESIDE_M, 0.0, float(ankle[2] + rng.normal(0, 0.04))),
        turned_deg=float(rng.normal(0, 3.0)),
        leaning_deg=float(rng.normal(0, 2.0)),
    )
    stick = LyingStick(
        (float(rng.normal(0, 0.08)), 0.010, float(toe[2]) + _TOE_TIP_M + float(gap_m)),
        turned_deg=float(rng.normal(0, 2.0)),
    )
    bay = replace(stage.shot.bay, board=board, stick=stick)
    return replace(stage, shot=replace(stage.shot, bay=bay))


def _seen(stage: Staged, mirrored: bool) -> tuple[Glimpse, ...]:
    """What the program sees of it, from a clip with all its artefacts."""
    camera = stage.shot.camera
    with tempfile.TemporaryDirectory(prefix="bench-") as folder:
        clip = Path(folder) / "still.mp4"
        with ClipWriter(clip, camera.width_px, camera.height_px, crf=CRF) as writer:
            for frame in islice(frames(stage), _FRAMES):
                writer.write(frame)
        with RecordingSource(clip) as source, MediaPipePose() as estimator:
            return tuple(glimpses(source, estimator, BoardWatch(mirrored)))


def _true_px_per_m(stage: Staged) -> float:
    """Focal length over depth at the lead ankle."""
    bones = stage.motion.moment_at(0.0).bones
    assert bones is not None
    camera = stage.shot.camera
    ankle = bones[stage.shot.body.bone_names.index("foot_l"), :3, 3]
    _, depth_m = camera.project(to_bay(ankle, camera.handedness)[None])
    return float(camera.focal_px / depth_m[0])


def _evidence(drawn: Draw, seen: tuple[Glimpse, ...], by: ScaleBy) -> SwingEvidence:
    plan = _plan(drawn, by)
    kept = tuple(g for g in seen if g.pose)
    poses = tuple(g.pose for g in kept if g.pose)
    camera = Camera(kept[0].width_px, kept[0].height_px, plan.camera.horizontal_fov_deg)
    level = _level(kept)
    until = Checkpoint(CheckpointName.TAKEAWAY, poses[-1].stamp_ns, 1)
    return SwingEvidence(
        swing=Swing(1, (until,)),
        poses=poses,
        shaft=(),
        stance=stance_in_picture(plan.handedness, plan.camera.mirrored),
        view=plan.view,
        stature_m=plan.stature_m,
        camera=camera,
        level=level,
        ruler=find_ruler(plan, kept, poses, camera, level),
    )


def _plan(drawn: Draw, by: ScaleBy) -> Plan:
    facts = {"by": by.value, **({"length": "1.00 m"} if by is ScaleBy.STICK else {})}
    return plan_for(drawn).model_copy(update={"scale": PlanScale.model_validate(facts)})


def _level(seen: tuple[Glimpse, ...]) -> Level:
    pose = seen[0].pose
    assert pose is not None
    low, high = pose.pixels.min(axis=0) / SHRINK, pose.pixels.max(axis=0) / SHRINK
    room = 0.15 * (high - low)
    return camera_level([g.grey for g in seen], (*(low - room), *(high + room)))


def _turned(evidence: SwingEvidence, drawn: Draw) -> tuple[float | None, float | None]:
    """Error of the camera's yaw, deg and in sigmas."""
    ruler, camera = evidence.ruler, evidence.camera
    size = camera.width_px, camera.height_px
    true_deg = drawn.camera.yaw_deg * (-1 if drawn.mirrored else 1)
    if ruler.board is not None:
        by_board = board_pose(ruler.board, camera.focal_px, size)
        error = by_board.yaw_deg - true_deg
        return error, error / by_board.yaw_sigma_deg
    if ruler.stick is not None:
        by_stick = stick_pose(ruler.stick, 1.0, camera.focal_px, size, evidence.level)
        error = by_stick.yaw_deg - true_deg
        return error, error / by_stick.yaw_sigma_deg
    return None, None
