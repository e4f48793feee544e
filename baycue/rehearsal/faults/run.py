"""Puts one fault upon a session and says what came of it."""

import re
import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from baycue.rehearsal.faults.bay import LIMIT_S, Bay, BayFiles, open_bay
from baycue.rehearsal.faults.fault import Fault
from baycue.rehearsal.faults.kept import look_over
from baycue.rehearsal.faults.live_process import Line
from baycue.rehearsal.faults.result import FaultResult

_NEWS = re.compile(
    r"camera \w+|no sound|sound again|plan \w+:|plan\.yaml|"
    r"swing \d+ (is not kept|cannot)|the scoring|"
    r"the display|no window|window|the session|the disk|the log|log\.sqlite|goes on|"
    r"is gone|too large|cannot be written"
)
_VERDICTS_AFTER = 2


class EndedBadlyError(Exception):
    """Why a fault ended badly."""


@dataclass(slots=True)
class _Course:
    """How it has gone so far."""

    told_s: float | None = None
    recovery_s: float | None = None
    saw: list[str] = field(default_factory=list)


def rehearse_fault(fault: Fault, files: BayFiles, log: Path | None = None) -> FaultResult:
    """Open a bay, wait for a swing, strike, mend, wait for swings again, end, look over.

    ``log``: a file for all that was told, with its times, and for what went to standard error.
    """
    course, badly, lost, swings = _Course(), "", "", 0
    begun, began_s = datetime.now().astimezone(), time.monotonic()
    try:
        with open_bay(files, fault.settings) as bay:
            try:
                _go_through(fault, bay, course)
            except EndedBadlyError as reason:
                badly = f"{reason}; last lines: {' / '.join(li.text for li in bay.lines[-4:])}"
            badly = "; ".join(filter(None, (badly, _ended(fault, bay))))
            if log is not None:
                _write_log(log, bay, began_s)
            afterwards = look_over(bay, fault.kept_is_hurt)
            lost, swings = afterwards.lost, len(bay.verdicts())
            badly = "; ".join(filter(None, (badly, afterwards.badly, _wrong_verdicts(bay))))
    except Exception as error:
        badly = "; ".join(filter(None, (badly, f"{type(error).__name__}: {error}")))
    saw = "; ".join(course.saw) or "verdicts went on"
    return FaultResult(
        fault.name,
        fault.done,
        saw,
        course.told_s,
        course.recovery_s,
        swings,
        lost,
        badly,
        begun.isoformat(timespec="seconds"),
        round(time.monotonic() - began_s, 1),
    )


def _write_log(log: Path, bay: Bay, began_s: float) -> None:
    lines = [f"{line.at_s - began_s:8.2f} {line.text}" for line in bay.lines]
    log.write_text("\n".join([*lines, "", bay.live.complaints()]), encoding="utf-8")


def rehearse_together(faults: Sequence[Fault], files: BayFiles) -> str:
    """One fault after another upon one session; why it ended badly, empty if it did not."""
    with open_bay(files, faults[0].settings) as bay:
        try:
            for fault in faults:
                _go_through(fault, bay, _Course(), verdicts=1)
        except EndedBadlyError as reason:
            return f"{fault.name}: {reason}"
        badly = _ended(faults[-1], bay), look_over(bay, False).badly, _wrong_verdicts(bay)
        return "; ".join(filter(None, badly))


def _go_through(fault: Fault, bay: Bay, course: _Course, verdicts: int = _VERDICTS_AFTER) -> None:
    if not fault.from_the_start and bay.verdict() is None:
        raise EndedBadlyError("no swing was told before the fault")
    since, struck_s = len(bay.live.lines), time.monotonic()
    fault.strike(bay)
    if fault.ends:
        return
    since = 0 if fault.from_the_start or bay.live.lines[:since] == [] else since
    _while_it_lasts(fault, bay, course, (since, struck_s))
    mended, mended_s, live = len(bay.live.lines), time.monotonic(), bay.live
    fault.mend(bay)
    mended = mended if bay.live is live else 0
    if fault.told_again and bay.told(fault.told_again, mended) is None:
        raise EndedBadlyError(f'nothing like "{fault.told_again}" was told afterwards')
    _verdicts_again(bay, course, (mended, mended_s), verdicts)
    course.saw += [line.text for line in bay.lines[since:] if _NEWS.search(line.text)]
    trouble = fault.after(bay) if fault.after else ""
    if trouble:
        raise EndedBadlyError(trouble)


def _while_it_lasts(fault: Fault, bay: Bay, course: _Course, since: tuple[int, float]) -> None:
    """The golfer is told, or verdicts go on."""
    line = bay.told(fault.told, since[0]) if fault.told else bay.verdict(since[0])
    if line is None:
        wanted = f'no line like "{fault.told}"' if fault.told else "no verdict"
        raise EndedBadlyError(f"{wanted} within {LIMIT_S:.0f} s")
    if fault.told:
        course.told_s = round(max(line.at_s - since[1], 0), 1)
    trouble = fault.seen(bay) if fault.seen else ""
    if trouble:
        raise EndedBadlyError(trouble)


def _verdicts_again(bay: Bay, course: _Course, since: tuple[int, float], verdicts: int) -> None:
    number = since[0]
    for _ in range(verdicts):
        line = bay.verdict(number)
        if line is None:
            raise EndedBadlyError(f"no verdict within {LIMIT_S:.0f} s after the fault")
        number = _after(bay, line)
        if course.recovery_s is None:
            course.recovery_s = round(line.at_s - since[1], 1)


def _after(bay: Bay, line: Line) -> int:
    return bay.live.lines.index(line) + 1


def _ended(fault: Fault, bay: Bay) -> str:
    """What is wrong with how it ended; empty if it ended well."""
    code = bay.live.ended() if fault.ends else bay.live.end()
    said = bay.live.complaints()
    if code is None:
        return "it did not end when asked to"
    if "Traceback" in said:
        return f"a traceback: {said.strip()[-1500:]}"
    return "" if code == 0 else f"it ended with code {code}: {said.strip()[-200:]}"


def _wrong_verdicts(bay: Bay) -> str:
    wrong = {found[1] for found in bay.verdicts()} - bay.expects - {"TOO CLOSE TO CALL"}
    return f"wrong verdicts: {', '.join(sorted(wrong))}" if wrong else ""
