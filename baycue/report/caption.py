"""The caption strip of an annotated clip: under the picture, so that it covers nobody."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import pygame

from baycue.capture.frame import Picture
from baycue.cues.band import headline
from baycue.cues.canvas import Canvas
from baycue.cues.letters import Letters, letters_of
from baycue.cues.palette import GROUND, OUTCOME, QUIET, RULE, TEXT, Colour
from baycue.cues.shapes import outcome_shape
from baycue.measures.marks import Role
from baycue.report.drawing import BODY, FROM, GUESSED_SHAFT, MEASURED, SHAFT
from baycue.report.words import IN_WORDS
from baycue.spine import ScoredSwing
from baycue.swing.swing import Checkpoint
from baycue.verdict.verdict import Outcome, TargetVerdict

_NAMED_FOR_NS = 700_000_000
_LETTER_SHARE = 0.022
_SMALLEST_PX = 8

Legend = tuple[tuple[Colour, str], ...]

DOWN_THE_LINE_LEGEND: Legend = (
    (BODY, "body"),
    (MEASURED, Role.MEASURED.value),
    (FROM, Role.FROM.value),
)
FACE_ON_LEGEND: Legend = (
    *DOWN_THE_LINE_LEGEND,
    (SHAFT, "shaft as seen, with its give or take"),
    (GUESSED_SHAFT, "shaft worked out"),
)


@dataclass(frozen=True, slots=True)
class Caption:
    """What is said under one picture; ``outcome`` is None before the verdict."""

    headline: str
    outcome: Outcome | None
    moment: str
    is_now: bool
    reasons: tuple[str, ...]


def caption_at(stamp_ns: int, frame_ns: int, swings: Sequence[ScoredSwing]) -> Caption:
    """The checkpoint just passed, and from the decision on the verdict and its reasons.

    ``frame_ns``: time between pictures; within half of it a checkpoint is now.
    """
    moment, is_now = _moment(stamp_ns, frame_ns, swings)
    decided = [s for s in swings if s.decided_ns <= stamp_ns]
    if not decided:
        return Caption("watching", None, moment, is_now, ())
    verdict = decided[-1].verdict
    said = f"swing {verdict.swing_number}: {headline(verdict)}"
    return Caption(said, verdict.outcome, moment, is_now, tuple(map(_reason, verdict.targets)))


def _reason(answer: TargetVerdict) -> str:
    """The answer's reason, led by pass or fail; the others say themselves what they are."""
    sure = answer.outcome is not Outcome.TOO_CLOSE
    said = f"{answer.outcome.value}: {answer.reason}" if sure else answer.reason
    return f"{said} (watched only)" if answer.watch_only else said


def _moment(stamp_ns: int, frame_ns: int, swings: Sequence[ScoredSwing]) -> tuple[str, bool]:
    slack = frame_ns // 2
    checkpoints = [c for s in swings for c in s.evidence.swing.checkpoints]
    passed = [c for c in checkpoints if -slack <= stamp_ns - c.time_ns < _NAMED_FOR_NS]
    if not passed:
        return "", False
    return _say(passed[-1]), abs(stamp_ns - passed[-1].time_ns) <= slack


def _say(checkpoint: Checkpoint) -> str:
    words = IN_WORDS[checkpoint.name]
    return f"{checkpoint.name.value} ({words}) at {checkpoint.time_ns / 1e9:.3f} s"


class Strip:
    """Draws captions for a clip of one width, in a height that holds the longest of them.

    ``width_px`` and ``height_px`` are the clip's, from which the letters' size follows.
    """

    def __init__(
        self,
        width_px: int,
        height_px: int,
        captions: Iterable[Caption],
        legend: Legend = FACE_ON_LEGEND,
    ) -> None:
        cap_px = max(_SMALLEST_PX, round(_LETTER_SHARE * min(width_px, height_px)))
        self._letters = letters_of(cap_px)
        self._small = letters_of(max(_SMALLEST_PX - 1, round(0.7 * cap_px)))
        self._width_px = width_px
        self._legend = _in_rows(legend, self._small, width_px)
        self._height_px = 0
        self._height_px = max([self._draw(c)[1] for c in captions], default=2 * cap_px)
        self.picture = lru_cache(maxsize=4)(self._picture)

    @property
    def height_px(self) -> int:
        """Height of every strip, px."""
        return self._height_px

    def _picture(self, caption: Caption) -> Picture:
        surface, _ = self._draw(caption)
        rgb = pygame.surfarray.array3d(surface).transpose(1, 0, 2)
        return np.ascontiguousarray(rgb[..., ::-1])

    def _draw(self, caption: Caption) -> tuple[pygame.Surface, int]:
        """The strip, and the height that this caption needs."""
        letters, margin = self._letters, self._letters.cap_px
        surface = pygame.Surface((self._width_px, max(self._height_px, 1)))
        surface.fill(GROUND)
        surface.fill(RULE, (0, 0, self._width_px, 2))
        canvas = Canvas(surface)
        foot = self._head(canvas, caption, float(margin))
        for reason in caption.reasons:
            lines = letters.wrap(reason, self._width_px - 2 * margin)
            foot = canvas.put(lines, letters, TEXT, margin, foot + 0.8 * margin, True)
        legend_px = 1.6 * self._small.cap_px * len(self._legend) + 0.6 * margin
        top = self._height_px - legend_px
        for row in self._legend:
            _draw_legend(canvas, row, self._small, top)
            top += 1.6 * self._small.cap_px
        return surface, round(foot + 1.2 * margin + legend_px)

    def _head(self, canvas: Canvas, caption: Caption, top: float) -> float:
        """Shape and verdict at the left, the moment at the right or under it."""
        letters, margin = self._letters, self._letters.cap_px
        colour = OUTCOME[caption.outcome] if caption.outcome else QUIET
        left = float(margin)
        if caption.outcome:
            size = round(1.3 * margin)
            shape = outcome_shape(caption.outcome, size, colour, GROUND)
            canvas.surface.blit(shape, (round(left), round(top - 0.15 * margin)))
            left += 1.8 * margin
        said = letters.wrap(caption.headline, self._width_px - left - margin)
        foot = canvas.put(said, letters, colour, left, top, True)
        ink = TEXT if caption.is_now else QUIET
        moment = letters.wrap(caption.moment, self._width_px - 2 * margin)
        beside = left + letters.width_px(caption.headline) + 2 * margin
        if beside + letters.width_px(caption.moment) + margin <= self._width_px:
            canvas.put(moment, letters, ink, self._width_px - margin, top, True, True)
            return foot
        return canvas.put(moment, letters, ink, margin, foot + 0.8 * margin, True)


def _in_rows(legend: Legend, letters: Letters, width_px: int) -> list[Legend]:
    """The legend in rows no wider than the strip, where that can be."""
    rows: list[Legend] = []
    for entry in legend:
        longer = (*rows[-1], entry) if rows else (entry,)
        if rows and _legend_px(longer, letters) <= width_px:
            rows[-1] = longer
        else:
            rows.append((entry,))
    return rows


def _legend_px(row: Legend, letters: Letters) -> float:
    return sum(5.2 * letters.cap_px + letters.width_px(words) for _, words in row)


def _draw_legend(canvas: Canvas, row: Legend, letters: Letters, top: float) -> None:
    """A swatch of each colour and what it means."""
    left = 1.5 * letters.cap_px
    for colour, words in row:
        box = (round(left), round(top), 2 * letters.cap_px, letters.cap_px)
        canvas.surface.fill(colour, box)
        canvas.put([words], letters, QUIET, left + 2.7 * letters.cap_px, top, False)
        left += 5.2 * letters.cap_px + letters.width_px(words)
