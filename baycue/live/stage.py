"""Which stage the big screen shows, when several things are true at once."""

from baycue.live.view import Stage
from baycue.swing.segment_state import Phase

GOLFER_STAGE = {
    Phase.AWAY: Stage.WAITING,
    Phase.ADDRESS: Stage.ADDRESS,
    Phase.BACK: Stage.SWING,
    Phase.DOWN: Stage.SWING,
    Phase.STOPPED: Stage.SWING,
    Phase.THROUGH: Stage.SWING,
}


def shown_stage(
    online: bool, paused: bool, setting_up: bool, golfer: Stage, answered: bool
) -> Stage:
    """A lost camera matters most, then a pause, then the set-up; an answer stays till address.

    ``golfer``: what the golfer is doing.  ``answered``: the last swing's verdict has been told
    and no new address has been seen since.
    """
    if not online:
        return Stage.OFFLINE
    if paused:
        return Stage.PAUSED
    if setting_up:
        return Stage.SET_UP
    return Stage.VERDICT if answered else golfer


def is_judged(stage: Stage, scoring: bool) -> bool:
    """Whether an answer is due soon, so that no other work may be in its way."""
    return scoring or stage in (Stage.ADDRESS, Stage.SWING)
