"""A quantity at each moment of a swing, from which a measure is taken."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Protocol

import numpy as np

from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.steady import (
    Pace,
    fit_steady,
    fit_steady_over,
    refuse_minority,
    refuse_walking,
)
from baycue.swing.curve import Curve
from baycue.swing.local_fit import FittedValue, FittedValues
from baycue.swing.swing import CheckpointName

_PARABOLA = 2
_CURVE_MEMORY_S = 0.04
"""About a frame at 30 a second: what a smooth curve through fast movements carries over."""


class Course(Protocol):
    """How a quantity went over time, in the measure's unit."""

    @property
    def times_s(self) -> FloatArray:
        """The moments, (N,), between which nothing is lost."""

    @property
    def memory_s(self) -> float:
        """How far apart two moments are whose errors have nothing to do with each other."""

    def at(self, time_s: float) -> FittedValue:
        """Value, rate and the one-sigma that the noise gives; NotMeasuredError if it was lost."""

    def over(self, times_s: FloatArray) -> FittedValues:
        """The same at each of (M,) moments."""

    def still(self, until_s: float) -> FittedValue:
        """The value while the golfer stood at address, up to ``until_s``."""


@dataclass(frozen=True, slots=True)
class Company:
    """Somebody is close behind, and a landmark may be on them.

    ``stands_m``: (N,) or (N, D), what in each frame tells whether it stands still at address.
    """

    stands_m: FloatArray | None = None


@dataclass(frozen=True, slots=True)
class Frames:
    """A course that each frame shows, smoothed by a polynomial of ``degree`` about a moment.

    ``values``: (N,) at ``times_s``.  ``kept``: (N,) which frames count.  The polynomial goes
    through the frames within ``half_width_s``.  ``company``: somebody is close behind.
    """

    times_s: FloatArray
    values: FloatArray
    kept: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]
    half_width_s: float
    degree: int
    company: Company | None = None

    @property
    def memory_s(self) -> float:
        """A window, or 4/9 of one for a parabola, which holds on to its frames by so much less:
        so much more does its variance come to (Savitzky and Golay 1964, the leading term).
        """
        return 2 * self.half_width_s * (1.0 if self.degree < _PARABOLA else 4 / 9)

    def at(self, time_s: float) -> FittedValue:
        """The polynomial's value and rate; the sigma is what its residuals give it."""
        if self._astray:
            fits = self.over(np.array([time_s]))
            return FittedValue(float(fits.values[0]), float(fits.rates[0]), float(fits.sigmas[0]))
        return fit_steady(
            self.times_s, self.values, self.kept, time_s, self.half_width_s, self.degree
        )

    def over(self, times_s: FloatArray) -> FittedValues:
        """The polynomials of all of them."""
        fits = fit_steady_over(
            self.times_s, self.values, self.kept, times_s, self.half_width_s, self.degree
        )
        return self._less_sure(fits, times_s) if self._astray else fits

    def still(self, until_s: float) -> FittedValue:
        """The median over all frames up to then, at least one.

        NotMeasuredError if in company what should stand at the ball walks.
        """
        count = max(int(np.searchsorted(self.times_s, until_s, side="right")), 1)
        still, spread = self.values[:count], float(np.std(self.values[:count]))
        if self.company is not None and self.company.stands_m is not None:
            refuse_walking(self.company.stands_m[:count])
        return FittedValue(float(np.median(still)), 0.0, spread / float(np.sqrt(count)))

    @property
    def _astray(self) -> bool:
        """Whether the landmark has been on somebody else: frames had to be left out."""
        return self.company is not None and not bool(self.kept.all())

    def _less_sure(self, fits: FittedValues, times_s: FloatArray) -> FittedValues:
        """Frames on somebody else are so together: a mean of many is no surer than one of them.

        NotMeasuredError where most are left out: those that are kept may be the wrong ones.
        """
        near = np.abs(self.times_s - times_s[:, None]) <= self.half_width_s
        counts = (near & self.kept).sum(axis=1)
        refuse_minority(counts, near.sum(axis=1))
        wider = np.sqrt(np.maximum(counts, self.degree + 2))
        return replace(fits, sigmas=fits.sigmas * wider)


@dataclass(frozen=True, slots=True)
class Smooth:
    """A course that is a smooth curve already, such as the shaft's angle."""

    curve: Curve

    @property
    def times_s(self) -> FloatArray:
        """The curve's own moments."""
        return self.curve.times_s

    @property
    def memory_s(self) -> float:
        """About a frame."""
        return _CURVE_MEMORY_S

    def at(self, time_s: float) -> FittedValue:
        """The curve there."""
        curve = self.curve
        return FittedValue(curve.value_at(time_s), curve.rate_at(time_s), curve.sigma_at(time_s))

    def over(self, times_s: FloatArray) -> FittedValues:
        """The curve there, between its own moments by straight line."""
        curve = self.curve
        known = (curve.values, curve.rates, curve.sigmas)
        return FittedValues(*(np.interp(times_s, curve.times_s, each) for each in known))

    def still(self, until_s: float) -> FittedValue:
        """The median up to then; moments of one curve share their errors, so no less unsure."""
        count = max(int(np.searchsorted(self.times_s, until_s, side="right")), 1)
        curve = self.curve
        return FittedValue(
            float(np.median(curve.values[:count])), 0.0, float(np.median(curve.sigmas[:count]))
        )


@dataclass(frozen=True, slots=True)
class Known:
    """A course that is known without noise: ``values`` (N,) at ``times_s``, straight in between.

    Before the first and after the last it stays as it is there.  At one of them the rate is that
    of the way to it, so that what becomes known later changes nothing there.
    """

    times_s: FloatArray
    values: FloatArray

    @property
    def memory_s(self) -> float:
        """Without noise there is nothing to remember."""
        return float("inf")

    def at(self, time_s: float) -> FittedValue:
        """The value there and how it goes on."""
        fits = self.over(np.array([time_s]))
        return FittedValue(float(fits.values[0]), float(fits.rates[0]), 0.0)

    def over(self, times_s: FloatArray) -> FittedValues:
        """The same at each of them."""
        slopes = np.diff(self.values) / np.maximum(np.diff(self.times_s), 1e-9)
        place = np.searchsorted(self.times_s, times_s, side="left")
        values = np.interp(times_s, self.times_s, self.values)
        return FittedValues(values, np.array([0.0, *slopes, 0.0])[place], np.zeros(len(times_s)))

    def still(self, until_s: float) -> FittedValue:
        """The value at the first."""
        return FittedValue(float(self.values[0]), 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Sum:
    """Courses added up, each times a weight; their noises are independent.

    The first part's moments are the sum's.
    """

    parts: tuple[tuple[float, Course], ...]

    @property
    def times_s(self) -> FloatArray:
        """The first part's."""
        return self.parts[0][1].times_s

    @property
    def memory_s(self) -> float:
        """The shortest of all: what is independent sooner makes more of a largest value."""
        return min(course.memory_s for _, course in self.parts)

    def at(self, time_s: float) -> FittedValue:
        """All parts there."""
        return self._added([course.at(time_s) for _, course in self.parts])

    def over(self, times_s: FloatArray) -> FittedValues:
        """All parts there."""
        fits = [course.over(times_s) for _, course in self.parts]
        return FittedValues(
            self._weights @ np.array([f.values for f in fits]),
            self._weights @ np.array([f.rates for f in fits]),
            np.linalg.norm(self._weights[:, None] * [f.sigmas for f in fits], axis=0),
        )

    def still(self, until_s: float) -> FittedValue:
        """All parts while the golfer stood at address."""
        return self._added([course.still(until_s) for _, course in self.parts])

    @property
    def _weights(self) -> FloatArray:
        return np.array([weight for weight, _ in self.parts])

    def _added(self, fits: list[FittedValue]) -> FittedValue:
        return FittedValue(
            float(self._weights @ [f.value for f in fits]),
            float(self._weights @ [f.rate_per_s for f in fits]),
            float(np.linalg.norm(self._weights * [f.sigma for f in fits])),
        )


@dataclass(frozen=True, slots=True)
class Track:
    """A course, and what it may be off by besides the noise that shows in it.

    ``each_sigma``: by how much at each moment by itself.  ``turned_sigma``: by how much more
    at the top, where the body is turned from the camera and the pose model least sure of it;
    less before and after.  ``shared_sigma``: by how much at all moments alike, which cancels
    in a change.  ``told_by``: the noise at checkpoints that are where they are because the
    quantity is what it is, as the shaft's angle is at shaft parallel: the moment's own spread
    would count it twice.  ``sigma_share``: of the value itself; for a
    length the scale's.  All one-sigma.  ``gain``: what the value, not its noise, is multiplied
    by; for a calibration that leaves the spread on the wide side.
    """

    course: Course
    each_sigma: float
    shared_sigma: float = 0.0
    sigma_share: float = 0.0
    turned_sigma: float = 0.0
    gain: float = 1.0
    told_by: Mapping[CheckpointName, float] = field(default_factory=dict)


def frames(
    evidence: SwingEvidence,
    values: FloatArray,
    half_width_s: float,
    degree: int,
    pace: Pace | None = None,
) -> Frames:
    """A course of a value (N,) per pose.

    ``pace``: how fast it can go, if that tells others off; it then stands still at address.
    """
    times_s = evidence.times_s
    kept = pace.steady(times_s, values) if pace else np.ones(len(values), dtype=bool)
    company = Company(values if pace else None) if evidence.in_company else None
    return Frames(times_s, values, kept, half_width_s, degree, company)
