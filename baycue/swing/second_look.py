"""A swing looked at again, with pictures that were not there the first time."""

from dataclasses import replace

import numpy as np

from baycue.swing.swing import Checkpoint, CheckpointName, Swing

_MOVED_SHARE = 0.4
"""Set on 500 development swings, of the bench's seeds 9 and 10.  On 511 of others, where impact
moved by less than 2 ms P8 was off by 1.4 to 1.7 ms RMS (374 swings), by 4 to 8 ms 2.7 (47), by more
6.7 (20)."""


def less_sure_if_moved(later: Checkpoint, first: Swing, second: Swing) -> Checkpoint:
    """A checkpoint of the second look, wider by how far apart the two looks put impact."""
    before, now = first.at(CheckpointName.IMPACT), second.at(CheckpointName.IMPACT)
    moved_ns = now.time_ns - before.time_ns if before and now else 0
    return replace(later, sigma_ns=round(float(np.hypot(later.sigma_ns, _MOVED_SHARE * moved_ns))))
