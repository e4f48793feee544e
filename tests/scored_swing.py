"""A scored swing of the stick golfer, without a camera or a pose model."""

from dataclasses import replace
from functools import lru_cache

import numpy as np

from baycue.measures.evidence import SwingEvidence
from baycue.measures.measurement import Measurement, Unit
from baycue.plan.stance import View
from baycue.plan.target import Target
from baycue.spine import ScoredSwing
from baycue.swing.swing import Checkpoint, CheckpointName, Swing
from baycue.verdict.judge import judge_swing, judge_target
from baycue.verdict.verdict import TargetVerdict
from tests.canned_readings import RIGHT_HANDER, TOP_NS, shaft_readings, true_times_s
from tests.canned_swing import canned_swing
from tests.stick_golfer import Pinhole, frame_times_s, poses_of

FPS = 30.0
TOP_S = 1.5
CAMERA = Pinhole()
DECIDED_AFTER_IMPACT_S = 0.09
_TARGETS: tuple[tuple[dict[str, object], Measurement | None], ...] = (
    (
        {"measure": "knee past ankle", "at": "P6", "at_least": "5 cm"},
        Measurement("knee past ankle", 0.021, 0.008, Unit.METRE),
    ),
    (
        {"measure": "head rise", "from": "address", "to": "impact", "at_most": "4 cm"},
        Measurement("head rise", -0.004, 0.006, Unit.METRE),
    ),
    (
        {"measure": "tempo", "between": ["2.5", "3.5"], "watch_only": "true"},
        Measurement("tempo", 2.61, 0.2, Unit.RATIO),
    ),
    ({"measure": "knee past ankle", "at": "top", "at_most": "9 cm", "name": "knee back"}, None),
)


def answers() -> tuple[TargetVerdict, ...]:
    """A fail, a pass, one too close and watched only, and one that was not measured."""
    return tuple(
        judge_target(Target.model_validate(asked), measured, "the knee was hidden")
        for asked, measured in _TARGETS
    )


@lru_cache(maxsize=2)
def scored_swing(number: int = 1) -> ScoredSwing:
    """The canned swing, its top at 1.5 s of a recording of 30 frames a second."""
    since_ns = TOP_NS - round(TOP_S * 1e9)
    decided_s = true_times_s()["impact"] + DECIDED_AFTER_IMPACT_S
    times = frame_times_s(FPS, -1.4, decided_s)
    poses = poses_of(times, canned_swing(), camera=CAMERA)
    shaft = shaft_readings(times, canned_swing(), 2.0, np.random.default_rng(1))
    first = round((TOP_S - 1.4) * FPS)
    evidence = SwingEvidence(
        swing=Swing(number, _checkpoints()),
        poses=tuple(
            replace(p, frame_index=p.frame_index + first, stamp_ns=p.stamp_ns - since_ns)
            for p in poses
        ),
        shaft=tuple(
            replace(r, frame_index=r.frame_index + first, stamp_ns=r.stamp_ns - since_ns)
            for r in shaft
        ),
        stance=RIGHT_HANDER,
        view=View.FACE_ON,
        stature_m=1.78,
        camera=CAMERA.known,
    )
    return ScoredSwing(evidence, judge_swing(number, answers()), evidence.poses[-1].stamp_ns)


def _checkpoints() -> tuple[Checkpoint, ...]:
    return tuple(
        Checkpoint(CheckpointName(name), round((TOP_S + time_s) * 1e9), 4_000_000)
        for name, time_s in true_times_s().items()
    )
