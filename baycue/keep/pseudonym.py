"""A student kept under another name: the own name goes nowhere."""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import replace

import yaml
from yaml.nodes import MappingNode, Node, ScalarNode

from baycue.errors import BaycueError
from baycue.keep.keeper import ToldSwing
from baycue.keep.record import PlanText, PracticeGo
from baycue.spine import ScoredSwing, UnscorableSwing
from baycue.verdict.verdict import SwingVerdict, TargetVerdict

_LONGEST = 60
_BESIDE_LETTERS = " _-."
_FREE_TEXT = frozenset({"student", "coach", "notes", "name", "cue"})


def refuse_unkeepable(alias: str) -> None:
    """BaycueError for a pseudonym that would mean something else in a plan's text, or nothing."""
    fits = 0 < len(alias) <= _LONGEST and alias[0].isalnum() and alias == alias.strip()
    wrong = next((c for c in alias if not _is_of_a_name(c)), None)
    if fits and wrong is None:
        return
    what = f"{wrong!r} in it" if wrong else f"{len(alias)} characters"
    raise BaycueError(
        f'--keep-as: "{alias:.60}" cannot be a pseudonym ({what}); allowed: up to {_LONGEST} '
        'letters and digits, with space, "-", "_" and "." between them'
    )


def _is_of_a_name(character: str) -> bool:
    """A letter, a digit, a letter's mark, or what may stand between them."""
    marks = unicodedata.category(character).startswith("M")
    return character.isalnum() or marks or character in _BESIDE_LETTERS


def under_another_name(told: ToldSwing, alias: str) -> ToldSwing:
    """The swing of ``alias``: no word of it is the student's own name any more."""
    name = told.student
    swing: ScoredSwing | UnscorableSwing = told.swing
    if isinstance(swing, ScoredSwing):
        swing = replace(swing, verdict=_verdict(swing.verdict, name, alias))
    plan = plan_of_another(told.plan, name, alias)
    return replace(told, student=alias, plan=plan, swing=swing, go=_go(told.go, name, alias))


def plan_of_another(plan: PlanText, name: str, alias: str) -> PlanText:
    """The plan with the name replaced in its free texts and comments, and in the file's name."""
    kept_spans = sorted(_fixed_spans(yaml.compose(plan.text, Loader=yaml.SafeLoader)))

    def written(match: re.Match[str]) -> str:
        fixed = any(start <= match.start() < end for start, end in kept_spans)
        return match[0] if fixed else alias

    return PlanText(file_of_another(plan.name, name), _word(name).sub(written, plan.text))


def file_of_another(file: str, name: str) -> str:
    """What the plan's file is called, unless that tells the name."""
    return "plan" if name.casefold() in file.casefold() else file


def source_of_another(source: str, name: str) -> str:
    """What the camera is called, unless that tells the name."""
    return "a recording" if name.casefold() in source.casefold() else source


def _verdict(verdict: SwingVerdict, name: str, alias: str) -> SwingVerdict:
    targets = tuple(_target(target, name, alias) for target in verdict.targets)
    return replace(verdict, targets=targets, reason=_said(verdict.reason, name, alias))


def _target(target: TargetVerdict, name: str, alias: str) -> TargetVerdict:
    return replace(
        target,
        target_name=_said(target.target_name, name, alias),
        reason=_said(target.reason, name, alias),
        cue=_said(target.cue, name, alias),
    )


def _go(go: PracticeGo | None, name: str, alias: str) -> PracticeGo | None:
    return go and replace(go, block=_said(go.block, name, alias))


def _said(text: str, name: str, alias: str) -> str:
    return _word(name).sub(lambda _: alias, text)


def _word(name: str) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){re.escape(name)}(?!\w)", re.IGNORECASE)


def _fixed_spans(node: Node | None, free: bool = False) -> Iterator[tuple[int, int]]:
    """Where in the text stand keys, and values that are no free text."""
    if isinstance(node, MappingNode):
        for key, value in node.value:
            yield from _fixed_spans(key)
            yield from _fixed_spans(value, str(key.value) in _FREE_TEXT)
    elif isinstance(node, ScalarNode):
        if not free:
            yield node.start_mark.index, node.end_mark.index
    elif node is not None:
        for item in node.value:
            yield from _fixed_spans(item, free)
