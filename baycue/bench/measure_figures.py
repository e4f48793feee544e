"""How right each measure is: from answers to the figures that the package keeps."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from baycue.bench.measure_take import MeasuredSwing
from baycue.bench.population import FPS_SHARES
from baycue.bench.questions import Question, questions
from baycue.bench.record import Stated
from baycue.bench.statistics import coverage_of, errors_of
from baycue.measures.figures import Figure
from baycue.plan.stance import View
from baycue.plan.target import USUAL_BAND, say_target

FEWEST = 8
"""Fewer swings of one frame rate get no figure of their own."""
BOUNDS_A_SWING = 20


@dataclass(frozen=True, slots=True)
class _Pair:
    number: int
    said: Stated
    true: float


def measure_figures(swings: Sequence[MeasuredSwing], seed: int = 1) -> tuple[Figure, ...]:
    """Of each question over all swings of its view, then by frame rate where there are enough."""
    found = []
    for view in View:
        seen = [s for s in swings if s.draw.camera.view is view and s.refused is None]
        for question in questions(view) if seen else ():
            found.append(_figure(question, view, seen, None, seed))
            for fps in FPS_SHARES:
                some = [s for s in seen if s.draw.fps == fps]
                if FEWEST <= len(some) < len(seen):
                    found.append(_figure(question, view, some, round(fps), seed))
    return tuple(found)


def _figure(
    question: Question, view: View, swings: Sequence[MeasuredSwing], fps: int | None, seed: int
) -> Figure:
    title, asked = question.title, say_target(question.measure, question.taken)
    pairs = [_Pair(s.draw.number, s.said[title], s.true[title]) for s in swings if title in s.said]
    off = [p.said.value - p.true for p in pairs]
    errors, covered = errors_of(off), coverage_of(off, [p.said.sigma for p in pairs])
    truths = np.array([s.true[title] for s in swings])
    called, right = _called(pairs, truths, seed)
    return Figure(
        measure=question.measure,
        view=view,
        asked=asked.replace(f" {question.measure}", "").replace(question.measure, "").strip(", "),
        swings=errors.count,
        rms=_short(errors.rms),
        bias=_short(errors.bias),
        one_sigma=_short(covered.within_68),
        two_sigmas=_short(covered.within_95),
        fps=fps,
        missing=len(swings) - len(pairs),
        true_spread=_short(float(truths.std())),
        called=_short(called),
        called_right=_short(right),
    )


def _called(pairs: Sequence[_Pair], truths: np.ndarray, seed: int) -> tuple[float, float]:
    """Shares of answers that are called, and of those right, over bounds drawn blind.

    Bounds are drawn evenly over what is true of the population, without regard to the swing; an
    answer is called where the value is further from the bound than a plan's usual band.
    """
    called = right = 0
    for pair in pairs:
        rng = np.random.default_rng([seed, pair.number])
        bounds = rng.uniform(truths.min(), truths.max(), BOUNDS_A_SWING)
        sure = np.abs(pair.said.value - bounds) >= USUAL_BAND * pair.said.sigma
        alike = (pair.said.value >= bounds) == (pair.true >= bounds)
        called += int(sure.sum())
        right += int((sure & alike).sum())
    answers = BOUNDS_A_SWING * len(pairs)
    return (called / answers if answers else 0.0), (right / called if called else 0.0)


def _short(value: float) -> float:
    return float(f"{value:.4g}")
