"""The constants of the view from behind, fitted on one half of a population, tested on the other.

All fits are least squares.  What remains on the tested half is the constants' sigma.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from baycue.bench.coach import plan_for
from baycue.bench.framing import round_the_golfer_deg
from baycue.bench.population import Draw
from baycue.bench.staging import staged
from baycue.bench.take import clip_of
from baycue.errors import SceneError
from baycue.measures.behind import BehindCalibration, ankles_apart
from baycue.measures.evidence import SwingEvidence
from baycue.measures.hand_path_out import across_m, back_m
from baycue.measures.scale import scale_of
from baycue.plan.stance import Handedness
from baycue.recording import score_recording
from baycue.swing.local_fit import fit_at
from baycue.swing.swing import CheckpointName
from baycue.synthetic.truth import TrueSwing

FloatArray = NDArray[np.float64]

FITTED_AT = (CheckpointName.P2, CheckpointName.P3, CheckpointName.TOP)
"""Where coaches ask for the hand path: going back."""
_HALF_WIDTH_S = 0.05


@dataclass(frozen=True, slots=True)
class SeenFromBehind:
    """What was seen of one swing, uncalibrated, and what is true.

    ``apart``: the ankles, in statures.  The others are of the hands at each of ``FITTED_AT``,
    metres.
    """

    number: int
    apart: float
    true_bearing_deg: float
    across_m: tuple[float, ...]
    back_m: tuple[float, ...]
    true_out_m: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class TestedBehind:
    """A calibration and its RMS error on the swings that it was not fitted on."""

    calibration: BehindCalibration
    bearing_deg: float
    hands_m: float


def seen_from_behind(draw: Draw, clips: Path | None = None) -> SeenFromBehind | None:
    """Render (or take from ``clips``) and look; None if not all that is needed was found."""
    stage = staged(draw)
    try:
        with clip_of(draw, stage, clips) as clip:
            swings = score_recording(clip, plan_for(draw)).swings
    except SceneError:
        return None
    return sighted(draw, swings[0].evidence, stage.truth) if swings else None


def sighted(draw: Draw, evidence: SwingEvidence, true: TrueSwing) -> SeenFromBehind | None:
    """What was seen, at the program's own checkpoints; None if one is missing."""
    scale, times = scale_of(evidence), evidence.times_s
    at_s = [c.time_ns * 1e-9 for name in FITTED_AT if (c := evidence.swing.at(name))]
    if len(at_s) < len(FITTED_AT):
        return None

    def each(values: FloatArray) -> tuple[float, ...]:
        return tuple(fit_at(times, values, t, _HALF_WIDTH_S).value for t in at_s)

    outward = 1.0 if draw.camera.handedness is Handedness.RIGHT else -1.0
    return SeenFromBehind(
        draw.number,
        ankles_apart(evidence, scale),
        outward * round_the_golfer_deg(draw.camera),
        each(across_m(evidence, scale)),
        each(back_m(evidence, scale)),
        tuple(true.tracks["hand path out"].at[name.value] for name in FITTED_AT),
    )


def calibrated_behind(seen: Sequence[SeenFromBehind], made: dict[str, str]) -> TestedBehind:
    """Fit on the even-numbered swings, test on the odd-numbered ones.

    The hands are fitted with the true bearing, so that what the bearing is off by does not
    shrink them; they are tested with it too.
    """
    fit, test = ([s for s in seen if s.number % 2 == odd] for odd in (0, 1))
    turns = _solved(_turns(fit), _bearings(fit))
    hands = _solved(_hands(fit), _outs(fit))
    bearing_deg = _rms(_turns(test) @ turns - _bearings(test))
    hands_m = _rms(_hands(test) @ hands - _outs(test))
    found = BehindCalibration(
        made,
        constant_deg=round(float(turns[0]), 2),
        ankles_deg=round(float(turns[1]), 1),
        bearing_sigma_deg=round(bearing_deg, 1),
        gain=round(float(hands[0]), 3),
        along_share=round(float(hands[1]), 3),
        hands_sigma_m=round(hands_m, 4),
    )
    return TestedBehind(found, bearing_deg, hands_m)


def _turns(seen: Sequence[SeenFromBehind]) -> FloatArray:
    return np.array([(1.0, s.apart) for s in seen])


def _bearings(seen: Sequence[SeenFromBehind]) -> FloatArray:
    return np.array([s.true_bearing_deg for s in seen])


def _hands(seen: Sequence[SeenFromBehind]) -> FloatArray:
    rows = [
        (across, np.sin(np.radians(s.true_bearing_deg)) * back)
        for s in seen
        for across, back in zip(s.across_m, s.back_m, strict=True)
    ]
    return np.array(rows)


def _outs(seen: Sequence[SeenFromBehind]) -> FloatArray:
    return np.concatenate([s.true_out_m for s in seen])


def _solved(columns: FloatArray, true: FloatArray) -> FloatArray:
    return np.asarray(np.linalg.lstsq(columns, true, rcond=None)[0])


def _rms(errors: FloatArray) -> float:
    return float(np.sqrt(np.mean(errors**2)))
