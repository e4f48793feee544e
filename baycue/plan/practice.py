"""The ``practice`` section: what is done in a session, and when a target is met."""

from collections.abc import Iterator, Sequence
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from baycue.plan import practice_fields as own
from baycue.plan.practice_block import PracticeBlock
from baycue.plan.practice_progress import ProgressRule, is_harder
from baycue.plan.stance import View
from baycue.plan.target import Target
from baycue.plan.words import guess
from baycue.practice.drill import Ends

MOST_BLOCKS = 12

Place = tuple[str | int, ...]


class PlanPractice(BaseModel):
    """Blocks in the order they are practised; ``seed`` for what is drawn at random."""

    model_config = ConfigDict(frozen=True, extra="forbid", validate_default=True)

    seed: own.Seed = 1
    blocks: Annotated[tuple[PracticeBlock, ...], Field(min_length=1, max_length=MOST_BLOCKS)]
    progress: Annotated[tuple[ProgressRule, ...], Field(max_length=8)] = ()


def practice_faults(
    view: View | None, targets: Sequence[Target], practice: PlanPractice
) -> Iterator[tuple[Place, str]]:
    """Faults that show only when the section is seen with the rest of the plan.

    ``targets``: the plan's own.  Yields the place within ``practice`` and the text.
    """
    for number, block in enumerate(practice.blocks):
        yield from _of_block(view, number, block)
    known = {t.title.lower(): t for t in _all_targets(targets, practice)}
    named: list[str] = []
    for number, rule in enumerate(practice.progress):
        place: Place = ("progress", number)
        target = known.get(rule.target.lower())
        if target is None:
            titles = [t.title for t in known.values()]
            yield (
                (*place, "target"),
                f'"{rule.target}" is no target of this plan; '
                f"allowed: {', '.join(titles)}{guess(rule.target, titles)}",
            )
        elif rule.target.lower() in named:
            yield (*place, "target"), f'"{rule.target}" has a rule already'
        elif rule.harder and not is_harder(rule.harder.bound, target.bound):
            yield (
                (*place, "harder"),
                f'is not harder than the bound of "{target.title}"; it must be of the same kind '
                "and unit and let less pass",
            )
        named.append(rule.target.lower())


def _of_block(view: View | None, number: int, block: PracticeBlock) -> Iterator[tuple[Place, str]]:
    for place, drill in enumerate(block.drills):
        if drill.kind.ends is Ends.HOLD and view is View.DOWN_THE_LINE:
            yield (
                ("blocks", number, "drills", place, "drill"),
                f'"{drill.drill}" cannot be seen down-the-line; allowed views: face-on',
            )
    if not block.judged and block.feedback.show != "every swing":
        yield (
            ("blocks", number, "feedback"),
            "does not belong here; a hold is guided by its tone and has no verdict",
        )


def _all_targets(targets: Sequence[Target], practice: PlanPractice) -> list[Target]:
    """Every drill's own and the plan's, which come last and so win where titles are alike."""
    own_ones = [t for b in practice.blocks for d in b.drills for t in d.targets or ()]
    return [*own_ones, *targets]
