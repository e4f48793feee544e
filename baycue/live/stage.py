"""Which stage the big screen shows, when several things are true at once."""

from baycue.live.view import Stage


def shown_stage(online: bool, paused: bool, golfer: Stage, answered: bool) -> Stage:
    """A lost camera matters most, then a pause; an answer stays until the next address.

    ``golfer``: what the golfer is doing.  ``answered``: the last swing's verdict has been told
    and no new address has been seen since.
    """
    if not online:
        return Stage.OFFLINE
    if paused:
        return Stage.PAUSED
    return Stage.VERDICT if answered else golfer
