"""What the bay knows at this moment, as the big screen shows it."""

from dataclasses import dataclass, field
from enum import Enum

from baycue.practice.summary import Summary
from baycue.practice.view import PracticeView
from baycue.replay.page import ReplayPage
from baycue.setup.report import SetUpReport
from baycue.verdict.verdict import SwingVerdict


class Stage(Enum):
    """What the golfer is doing, or what keeps the bay from watching."""

    OFFLINE = "camera offline"
    SET_UP = "set-up"
    WAITING = "waiting"
    ADDRESS = "address seen"
    SWING = "swing"
    VERDICT = "verdict"
    PAUSED = "paused"


@dataclass(frozen=True, slots=True)
class Health:
    """Camera and sound as they are, measured and not asked for.

    ``camera_fps``: None until enough frames have come.  ``sound``: one line on the device, or
    why there is none.
    """

    camera_online: bool = False
    camera_fps: float | None = None
    dropped_frames: int = 0
    sound_ok: bool = False
    sound: str = ""


@dataclass(frozen=True, slots=True)
class LiveView:
    """All that the screen is drawn from.

    ``verdict``: the last one given.  ``run_of_passes``: swings passed in a row up to now.
    ``unscorable``: why the last swing seen could not be judged, if it could not.
    ``plan_name``: whose targets are on.  ``set_up``: the latest set-up check, shown at that
    stage.  ``replay``: the last swing again, shown at the stage of its verdict.  ``summary``:
    some swings told together, after the verdict.  ``withheld``: the last swing has been judged
    and is not told.  ``practice``: None for full swings for ever.
    """

    stage: Stage = Stage.OFFLINE
    verdict: SwingVerdict | None = None
    unscorable: str | None = None
    run_of_passes: int = 0
    passes: int = 0
    balls: int = 0
    plan_name: str = ""
    notice: str | None = None
    health: Health = field(default_factory=Health)
    set_up: SetUpReport | None = None
    summary: Summary | None = None
    replay: ReplayPage | None = None
    withheld: bool = False
    practice: PracticeView | None = None
