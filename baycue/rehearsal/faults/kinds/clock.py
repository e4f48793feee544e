"""Clocks that go wrong."""

import json

from baycue.rehearsal.faults.bay import Bay, BaySettings
from baycue.rehearsal.faults.fault import Deed, Fault

_CLOCKS = BaySettings(clocks=True)


def _set(**wrong: float) -> Deed:
    def deed(bay: Bay) -> None:
        fresh = bay.clocks.with_suffix(".new")
        fresh.write_text(json.dumps(wrong))
        fresh.replace(bay.clocks)

    return deed


FAULTS = (
    Fault(
        "clock-set-back",
        "the time of day is set back by two hours",
        _set(wall_s=-7200.0),
        _set(),
        settings=_CLOCKS,
    ),
    Fault(
        "stamps-repeat",
        "pictures' stamps repeat: they go in steps of 0.2 s",
        _set(grain_s=0.2),
        _set(),
        "pictures a second|bunches|damaged",
        settings=_CLOCKS,
    ),
    Fault(
        "stamps-jump-back",
        "pictures' stamps jump back by a minute",
        _set(stamps_s=-60.0),
        settings=_CLOCKS,
    ),
    Fault(
        "stamps-jump-ahead",
        "pictures' stamps jump ahead by a minute",
        _set(stamps_s=60.0),
        settings=_CLOCKS,
    ),
)
