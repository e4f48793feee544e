"""Rulers found in rendered stills, by the real pose model, and the bench of the scale."""

from functools import lru_cache

import numpy as np
import pytest

from baycue.bench.scale import ScaleTold, figures, scale_told
from baycue.plan.camera_facts import ScaleBy


@lru_cache(maxsize=1)
def one_golfer() -> dict[ScaleBy, ScaleTold]:
    return {told.by: told for told in scale_told(seed=5, number=0)}


@pytest.mark.parametrize("by", [ScaleBy.STICK, ScaleBy.BOARD])
def test_a_ruler_is_found_beside_a_rendered_golfer(by: ScaleBy) -> None:
    told = one_golfer()[by]
    assert told.alone is not None
    assert abs(told.alone) < 0.05
    assert told.yaw_deg is not None
    assert abs(told.yaw_deg) < 10


def test_every_scale_is_as_right_as_it_says() -> None:
    for told in one_golfer().values():
        assert abs(told.sigmas) < 3
        assert abs(told.used) < 0.08


def test_the_figures_are_those_of_numpy() -> None:
    errors, alone = [0.02, -0.04, 0.03], [0.01, None, -0.02]
    told = [
        ScaleTold(k, ScaleBy.BOARD, error, error / 0.02, one, one and 3.0, one and 1.0)
        for k, (error, one) in enumerate(zip(errors, alone, strict=True))
    ]
    board = figures(told)[-1]
    assert (board.by, board.draws, board.found) == (ScaleBy.BOARD, 3, 2)
    assert board.used_rms == pytest.approx(np.sqrt(np.mean(np.square(errors))))
    assert board.used_mean == pytest.approx(np.mean(errors))
    assert board.alone_rms == pytest.approx(np.sqrt((0.01**2 + 0.02**2) / 2))
    assert board.yaw_rms_deg == 3.0
