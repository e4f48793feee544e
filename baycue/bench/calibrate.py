"""The calibration's constants, fitted on one half of a population and tested on the other.

What remains on the tested half, less the other parts of a measure's sigma, is the constants'
sigma.  All fits are least
squares; swings whose misfit is over four times the usual are left out of the fit (not of the
test), for there the pose model was on somebody else.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from baycue.bench import coach
from baycue.bench.coach import plan_for
from baycue.bench.framing import round_the_golfer_deg
from baycue.bench.population import Draw
from baycue.bench.staging import staged
from baycue.bench.take import clip_of
from baycue.errors import SceneError
from baycue.measures.bearing import StanceSeen, stance_seen
from baycue.measures.calibration import (
    HEAD,
    KNEE,
    BearingCalibration,
    Calibration,
    HeadCalibration,
    KneeCalibration,
)
from baycue.measures.knee_past_ankle import across_m, nearer_by_m
from baycue.measures.scale import scale_of
from baycue.plan.stance import Handedness
from baycue.recording import score_recording
from baycue.spine import ScoredSwing
from baycue.swing.local_fit import fit_at
from baycue.swing.swing import CheckpointName
from baycue.synthetic.truth import TrueSwing

FloatArray = NDArray[np.float64]

_WILD = 4.0
_HALF_WIDTH_S = 0.07
_MAD_TO_SIGMA = 1.4826


@dataclass(frozen=True, slots=True)
class Sighting:
    """What was seen of one swing, uncalibrated, and what is true; metres and degrees.

    ``toward_target``: +1 if the target is to the right in the picture, else -1.
    ``knee_rest_m``, ``head_rest_m``: the stated one-sigma without the calibration's part.
    """

    number: int
    toward_target: int
    stance: StanceSeen
    across_m: float
    nearer_m: float
    ears_rise_m: float
    true_bearing_deg: float
    true_knee_m: float
    true_head_m: float
    knee_rest_m: float
    head_rest_m: float


@dataclass(frozen=True, slots=True)
class Tested:
    """A calibration and its RMS error on the swings that it was not fitted on."""

    calibration: Calibration
    bearing_deg: float
    knee_m: float
    head_m: float


def sighting(draw: Draw, clips: Path | None = None) -> Sighting | None:
    """Render (or take from ``clips``) and look; None if no swing, P6 or impact was found."""
    stage = staged(draw)
    try:
        with clip_of(draw, stage, clips) as clip:
            swings = score_recording(clip, plan_for(draw)).swings
    except SceneError:
        return None
    return _seen(draw, swings[0], stage.truth) if swings else None


def _seen(draw: Draw, scored: ScoredSwing, true: TrueSwing) -> Sighting | None:
    evidence, said = scored.evidence, {a.target_name: a.measurement for a in scored.verdict.targets}
    swing, scale = evidence.swing, scale_of(evidence)
    knee, head = said[coach.KNEE], said[coach.HEAD]
    p6 = swing.at(CheckpointName.P6)
    if not (p6 and knee and head):
        return None
    across = across_m(evidence, scale)
    toward = 1.0 if draw.camera.handedness is Handedness.RIGHT else -1.0
    return Sighting(
        draw.number,
        evidence.stance.toward_target,
        stance_seen(evidence),
        fit_at(evidence.times_s, across, p6.time_ns * 1e-9, _HALF_WIDTH_S).value,
        nearer_by_m(evidence, scale),
        head.value / HEAD.gain,
        toward * round_the_golfer_deg(draw.camera),
        true.knee_past_ankle_m["P6"],
        true.head_rise_m["impact"],
        _rest(knee.sigma, KNEE.sigma_m),
        _rest(head.sigma, HEAD.sigma_m),
    )


def _median(values: Sequence[float]) -> float:
    return float(np.median(values))


def _rest(whole: float, part: float) -> float:
    return float(np.sqrt(max(whole**2 - part**2, 0.0)))


def calibrated(seen: Sequence[Sighting], made: dict[str, str]) -> Tested:
    """Fit on the even-numbered swings, test on the odd-numbered ones."""
    fit, test = ([s for s in seen if s.number % 2 == odd] for odd in (0, 1))
    turns = _solved(_turn_columns(fit), np.array([s.true_bearing_deg for s in fit]))
    knee = _solved(_knee_columns(fit, turns), np.array([s.true_knee_m for s in fit]))
    gain = _solved(_head_columns(fit), np.array([s.true_head_m for s in fit]))
    bearing_deg = _rms(_turn_columns(test) @ turns, [s.true_bearing_deg for s in test])
    knee_m = _rms(_knee_columns(test, turns) @ knee, [s.true_knee_m for s in test])
    head_m = _rms(_head_columns(test) @ gain, [s.true_head_m for s in test])
    found = Calibration(
        made,
        _bearing(turns, bearing_deg),
        KneeCalibration(
            round(float(knee[0]), 3),
            round(float(knee[2]), 4),
            round(float(knee[1] / knee[0]), 3),
            round(float(knee[3] / knee[0]), 4),
            round(_rest(knee_m, _median([s.knee_rest_m for s in test])), 4),
        ),
        HeadCalibration(
            round(float(gain[0]), 3),
            round(_rest(head_m, float(np.median([s.head_rest_m for s in test]))), 4),
            HEAD.too_high_share,
            HEAD.nearer_share,
        ),
    )
    return Tested(found, bearing_deg, knee_m, head_m)


def _bearing(turns: FloatArray, sigma_deg: float) -> BearingCalibration:
    constant_deg, place, heels, shoulders, hips = (round(float(t), 3) for t in turns)
    return BearingCalibration(constant_deg, place, heels, shoulders, hips, round(sigma_deg, 1))


def _turn_columns(seen: Sequence[Sighting]) -> FloatArray:
    return np.array(
        [
            (1.0, s.stance.place_deg, s.stance.heels_deg, s.stance.shoulders_deg, s.stance.hips_deg)
            for s in seen
        ]
    )


def _knee_columns(seen: Sequence[Sighting], turns: FloatArray) -> FloatArray:
    bearings = np.radians(_turn_columns(seen) @ turns)
    nearer = np.array([s.nearer_m for s in seen])
    across = np.array([s.across_m for s in seen])
    toward = np.array([s.toward_target for s in seen])
    return np.column_stack([across, np.sin(bearings) * nearer, np.ones(len(seen)), toward])


def _head_columns(seen: Sequence[Sighting]) -> FloatArray:
    return np.array([[s.ears_rise_m] for s in seen])


def _solved(columns: FloatArray, true: FloatArray) -> FloatArray:
    """Least squares, once more without what the first fit finds wild."""
    first = np.linalg.lstsq(columns, true)[0]
    off = np.abs(true - columns @ first)
    kept = off <= _WILD * _MAD_TO_SIGMA * np.median(off)
    return np.asarray(np.linalg.lstsq(columns[kept], true[kept])[0])


def _rms(said: FloatArray, true: Sequence[float]) -> float:
    """With wild ones left out too, for a sigma is not to be set by them."""
    off = said - np.asarray(true)
    kept = np.abs(off) <= _WILD * _MAD_TO_SIGMA * np.median(np.abs(off))
    return float(np.sqrt(np.mean(off[kept] ** 2)))
