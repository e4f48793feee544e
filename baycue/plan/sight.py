"""Which checkpoints a camera's view shows in time for the verdict."""

from baycue.plan.stance import View
from baycue.swing.swing import CheckpointName

_AFTER_THE_VERDICT = CheckpointName.FINISH
_ALL = tuple(name for name in CheckpointName if name is not _AFTER_THE_VERDICT)
_SHOWN = {
    View.FACE_ON: _ALL,
    # There the shaft points along the line of sight, and the hands tell the rest.
    View.DOWN_THE_LINE: tuple(name for name in _ALL if name is not CheckpointName.P8),
}


def checkpoints_shown(view: View) -> tuple[CheckpointName, ...]:
    """The checkpoints that a target may name in this view, in order of time."""
    return _SHOWN[view]


def why_not_shown(view: View, name: CheckpointName) -> str:
    """What is wrong with naming a checkpoint in this view; empty if it is shown."""
    shown = checkpoints_shown(view)
    if name in shown:
        return ""
    allowed = ", ".join(each.value for each in shown)
    if name is _AFTER_THE_VERDICT:
        return f'"{name.value}" comes after the verdict has been given; allowed: {allowed}'
    return f'"{name.value}" cannot be seen {view.value}; allowed: {allowed}'
