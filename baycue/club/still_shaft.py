"""The shaft of a club that hardly moves, picture by picture.

In a swing the club is told from the bay because it is elsewhere a moment later.  In a slow
rehearsal it is not, so pictures are kept from whenever the hands were elsewhere: their median is
the bay without this club.  Where there are too few, or where the shaft is as grey as what is behind
it, it is not seen and nothing is guessed.
"""

from dataclasses import dataclass

import numpy as np

from baycue.club.background import FloatPicture, GreyPicture, difference, still_background
from baycue.club.evidence import WIDTHS_DEG, angular_evidence
from baycue.club.refine import Expectation, fit_near
from baycue.club.scene import FloatArray
from baycue.club.unwrap import Reach, loudest_smear, unroll

_INNER_BODIES, _OUTER_BODIES = 0.17, 0.58
_ELSEWHERE_BODIES, _KEPT_APART_BODIES = 0.20, 0.06
_MOST_KEPT, _FEWEST_ELSEWHERE, _MOST_USED = 40, 5, 15
_SHARP_WIDTHS = sum(width <= 5.0 for width in WIDTHS_DEG)
_WRIST_TRAIL_DEG, _WRIST_LEAD_DEG = 140.0, 100.0
_PATH_SIGMA_DEG = 6.0
_LEAST_EVIDENCE, _LEAST_GAIN = 1.0, 6.0
_LEAST_SIGMA_DEG = 2.0
"""On five synthetic rehearsals held at P6 the mean was 1.0 to 2.2 deg off, mostly one way."""


@dataclass(frozen=True, slots=True)
class ShaftSight:
    """Where the shaft points, counted as ``ShaftReading.angle_deg``, and the one-sigma."""

    angle_deg: float
    sigma_deg: float


@dataclass(frozen=True, slots=True)
class Held:
    """One picture, small and grey, with the hands in it, (2,) px, and the lead arm's angle."""

    grey: GreyPicture
    hands_px: FloatArray
    arm_deg: float
    body_px: float


@dataclass(frozen=True, slots=True, eq=False)
class StillShaft:
    """Remembers pictures with the hands in different places."""

    target_on_right: bool
    kept: tuple[Held, ...] = ()

    def after(self, seen: Held) -> "StillShaft":
        """One picture on; cheap."""
        return StillShaft(self.target_on_right, self._with(seen))

    def _with(self, seen: Held) -> tuple[Held, ...]:
        if self.kept and seen.grey.shape != self.kept[-1].grey.shape:
            return (seen,)
        if self.kept and _apart(seen, self.kept[-1]) < _KEPT_APART_BODIES:
            return self.kept
        return (*self.kept[1 - _MOST_KEPT :], seen)

    def look(self, seen: Held) -> ShaftSight | None:
        """The shaft in a picture, if it can be seen; costs about as much as finding a pose."""
        elsewhere = [k for k in self.kept if _is_elsewhere(k, seen)][-_MOST_USED:]
        if len(elsewhere) < _FEWEST_ELSEWHERE:
            return None
        reach = Reach(_INNER_BODIES * seen.body_px, _OUTER_BODIES * seen.body_px)
        part, hands = _about(seen, reach)
        bay = still_background([k.grey[part] for k in elsewhere])
        new = difference(seen.grey[part], bay)
        unrolled = unroll(new, hands, reach, self.target_on_right)
        loudest = loudest_smear(bay.flicker)
        likely = _likeliest(angular_evidence(unrolled, loudest), seen.arm_deg)
        if likely is None:
            return None
        fit = fit_near(unrolled, reach, Expectation(likely, _PATH_SIGMA_DEG, 0.0), loudest)
        if fit.gain < _LEAST_GAIN:
            return None
        return ShaftSight(fit.angle_deg, float(np.hypot(fit.sigma_deg, _LEAST_SIGMA_DEG)))


def _apart(one: Held, other: Held) -> float:
    """How far the hands have moved, in body lengths."""
    return float(np.linalg.norm(one.hands_px - other.hands_px)) / one.body_px


def _is_elsewhere(kept: Held, seen: Held) -> bool:
    return kept.grey.shape == seen.grey.shape and _apart(seen, kept) > _ELSEWHERE_BODIES


def _about(seen: Held, reach: Reach) -> tuple[tuple[slice, slice], FloatArray]:
    """The part of the picture within reach of the hands, and where they are in it."""
    size = np.array(seen.grey.shape[::-1])
    corner = np.clip(np.floor(seen.hands_px - reach.outer_px - 1), 0, size - 1).astype(int)
    end = np.clip(np.ceil(seen.hands_px + reach.outer_px + 2), corner + 1, size).astype(int)
    return (slice(corner[1], end[1]), slice(corner[0], end[0])), seen.hands_px - corner


def _likeliest(evidence: FloatPicture, arm_deg: float) -> float | None:
    """The angle, deg, with the most evidence of a sharp shaft that a wrist allows."""
    sharp = evidence[:_SHARP_WIDTHS].max(axis=0)
    wrist = (np.arange(360) - arm_deg + 180) % 360 - 180
    sharp = np.where((wrist > -_WRIST_TRAIL_DEG) & (wrist < _WRIST_LEAD_DEG), sharp, -np.inf)
    best = int(np.argmax(sharp))
    if sharp[best] < _LEAST_EVIDENCE:
        return None
    return float(best if best <= 180 else best - 360)
