"""True motion blur: the light gathered while the shutter is open.

The exposure is cut into slices.  The body is drawn once a slice; the club and the ball,
which move much faster, are drawn many times a slice among that slice's body.
"""

from collections.abc import Callable

import numpy as np

from baycue.synthetic.camera import Camera
from baycue.synthetic.compositing import Slice, compose
from baycue.synthetic.painter import LinearColours, flatten
from baycue.synthetic.scene import ClubPose, FloatArray, Moment
from baycue.synthetic.stage import Stage

MomentAt = Callable[[float], Moment]

BODY_STEP_PX = 6.0
BODY_SLICES_MOST = 10
CLUB_STEP_PX = 2.5
CLUB_STEPS_MOST = 80
CLUB_PX_PER_SLICE = 120.0


def exposed(stage: Stage, moment_at: MomentAt, middle_s: float, shutter_s: float) -> LinearColours:
    """(height, width, 3) linear light gathered around ``middle_s``."""
    edges_s = np.linspace(middle_s - shutter_s / 2, middle_s + shutter_s / 2, 3)
    probes = [moment_at(float(t)) for t in edges_s]
    slices, steps = _counts(stage, probes)
    cuts_s = np.linspace(edges_s[0], edges_s[2], 2 * slices + 1)
    moments = probes if slices == 1 else [moment_at(float(t)) for t in cuts_s]
    parts = [
        _slice(stage, moments[2 * i : 2 * i + 3], -(-steps // slices), 1 / slices)
        for i in range(slices)
    ]
    light = stage.floor_light(probes[1])
    compose(stage.camera, parts, light)
    return light


def _counts(stage: Stage, probes: list[Moment]) -> tuple[int, int]:
    """How many slices for the body and how many steps for the club."""
    body_px = max(
        _travel_px(stage.camera, [_joints(m.bones) for m in probes]),
        _travel_px(stage.camera, [_joints(m.walker) for m in probes]),
    )
    club_px = _travel_px(
        stage.camera, [None if m.club is None else m.club.head_m[None] for m in probes]
    )
    ball_px = _travel_px(
        stage.camera, [None if m.ball_m is None else m.ball_m[None] for m in probes]
    )
    slices = max(np.ceil(body_px / BODY_STEP_PX), np.ceil(club_px / CLUB_PX_PER_SLICE))
    steps = np.ceil(max(club_px, min(ball_px, 200.0)) / CLUB_STEP_PX)
    return int(np.clip(slices, 1, BODY_SLICES_MOST)), int(np.clip(steps, 1, CLUB_STEPS_MOST))


def _joints(bones: FloatArray | None) -> FloatArray | None:
    return None if bones is None else bones[:, :3, 3]


def _travel_px(camera: Camera, tracks: list[FloatArray | None]) -> float:
    """The longest path of any point through the probed moments, px."""
    known = [t for t in tracks if t is not None]
    if len(known) < 2:
        return 0.0
    pixels = np.stack([camera.project(points)[0] for points in known])
    steps = np.linalg.norm(np.diff(pixels, axis=0), axis=-1)
    return float(steps.sum(axis=0).max())


def _slice(stage: Stage, moments: list[Moment], steps: int, weight: float) -> Slice:
    begin, middle, end = moments
    people = flatten(stage.people(middle), stage.camera)
    drawn = []
    for share in (np.arange(steps) + 0.5) / steps:
        club, ball_m = _club_between(begin, middle, end, share), _ball_between(begin, end, share)
        drawn.append([flatten(p, stage.camera) for p in stage.props(club, ball_m)])
    return Slice(people, drawn, weight)


def _club_between(begin: Moment, middle: Moment, end: Moment, share: float) -> ClubPose | None:
    """The club at a share of the way, on the parabola through three poses."""
    if begin.club is None or middle.club is None or end.club is None:
        return middle.club
    weights = (
        2 * (share - 0.5) * (share - 1),
        -4 * share * (share - 1),
        2 * share * (share - 0.5),
    )
    poses = (begin.club, middle.club, end.club)
    normal = sum(w * p.face_normal for w, p in zip(weights, poses, strict=True))
    return ClubPose(
        np.asarray(sum(w * p.butt_m for w, p in zip(weights, poses, strict=True))),
        np.asarray(sum(w * p.head_m for w, p in zip(weights, poses, strict=True))),
        np.asarray(normal / np.linalg.norm(normal)),
    )


def _ball_between(begin: Moment, end: Moment, share: float) -> FloatArray | None:
    if begin.ball_m is None or end.ball_m is None:
        return begin.ball_m if share < 0.5 else end.ball_m
    return np.asarray((1 - share) * begin.ball_m + share * end.ball_m)
