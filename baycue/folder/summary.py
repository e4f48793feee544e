"""All clips of a folder in one document: each clip, and each target over all swings."""

from collections.abc import Iterable, Sequence
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from baycue.folder.run import Told
from baycue.keep.record import PlanText
from baycue.plan.load import parse_plan
from baycue.practice.wilson import wilson_interval
from baycue.report.document import SwingEntry, TargetEntry


class _Part(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class Tally(_Part):
    """Answers counted; the rate is of those that were called, with its 95 % Wilson interval."""

    passed: int = Field(ge=0, description="pass")
    failed: int = Field(ge=0, description="fail")
    too_close: int = Field(ge=0, description="too close to call")
    not_measured: int = Field(ge=0, description="nothing was measured")
    pass_rate: float | None = Field(
        description="passed / (passed + failed); null if none was called"
    )
    low: float | None = Field(description="the interval's lower end, 0 to 1; null likewise")
    high: float | None = Field(description="the interval's upper end, 0 to 1; null likewise")


class ClipLine(_Part):
    """One clip."""

    clip: str = Field(description="its path below the folder")
    outcomes: tuple[str, ...] = Field(description="each swing's, in order of time")
    trouble: str | None = Field(description="why there is no score")


class TargetLine(_Part):
    """One target over all swings of all clips."""

    target: str = Field(description="its name")
    watch_only: bool = Field(description="reported, but does not decide a swing")
    tally: Tally = Field(description="its answers")


class FolderSummary(_Part):
    """A folder of clips scored against one plan."""

    format: Literal["baycue folder summary"] = "baycue folder summary"
    version: Literal[1] = 1
    plan: str = Field(description="the plan's file name")
    plan_sha256: str = Field(description="digest of the plan's text")
    student: str = Field(description="as the plan has it")
    clips: tuple[ClipLine, ...] = Field(description="by name")
    swings: Tally = Field(description="over all clips")
    targets: tuple[TargetLine, ...] = Field(description="in the plan's order")


def summarised(plan: PlanText, told: Iterable[Told]) -> FolderSummary:
    """The summary, whatever the order in which the clips were told of."""
    lines = sorted(told, key=lambda each: each.clip.name)
    swings = [swing for each in lines for swing in swings_of(each)]
    answers: dict[tuple[str, bool], list[TargetEntry]] = {}
    for answer in (answer for swing in swings for answer in swing.targets):
        answers.setdefault((answer.target, answer.watch_only), []).append(answer)
    return FolderSummary(
        plan=plan.name,
        plan_sha256=plan.sha256,
        student=parse_plan(plan.text, plan.name).student,
        clips=tuple(
            ClipLine(
                clip=each.clip.name,
                outcomes=tuple(swing.outcome for swing in swings_of(each)),
                trouble=trouble_of(each),
            )
            for each in lines
        ),
        swings=tally([swing.outcome for swing in swings]),
        targets=tuple(
            TargetLine(target=name, watch_only=watched, tally=tally(map(answer_of, given)))
            for (name, watched), given in answers.items()
        ),
    )


def swings_of(told: Told) -> Sequence[SwingEntry]:
    """The clip's swings; none without a score."""
    return told.result.scores.swings if told.result and told.result.scores else ()


def trouble_of(told: Told) -> str | None:
    """Why there is no score, or None if there is one."""
    return told.result.refused if told.result else told.stopped


def answer_of(entry: TargetEntry) -> str:
    """The outcome, but "not measured" where there was nothing to call."""
    return entry.outcome if entry.value is not None else "not measured"


def tally(answers: Iterable[str]) -> Tally:
    """Count answers."""
    given = list(answers)
    passed, failed = given.count("pass"), given.count("fail")
    called = passed + failed
    interval = wilson_interval(passed, called) if called else None
    return Tally(
        passed=passed,
        failed=failed,
        too_close=given.count("too close to call"),
        not_measured=given.count("not measured"),
        pass_rate=passed / called if called else None,
        low=interval.low if interval else None,
        high=interval.high if interval else None,
    )
