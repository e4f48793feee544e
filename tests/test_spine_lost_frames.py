"""Any one frame may be lost: what was called stays called, from pictures to verdict.

Every third frame and those about the checkpoints; ``python -m tests.lost_frames`` goes over all.
The pose model has seen every frame, so that a frame costs its scoring alone.
"""

from tests.lost_frames import (
    about_checkpoints,
    from_address_to_finish,
    moved,
    scored,
    seen,
    without,
)

SAMPLE = "knee_pass_30fps"
EVERY = 3


def chosen() -> list[int]:
    places = from_address_to_finish(SAMPLE)
    return sorted({*places[::EVERY], *about_checkpoints(SAMPLE)} & {*places})


def test_a_lost_frame_changes_no_called_answer() -> None:
    whole = scored(seen(SAMPLE))
    assert whole is not None
    lost_frames = chosen()
    assert len(lost_frames) > 20
    for lost in lost_frames:
        again = scored(without(seen(SAMPLE), lost))
        assert again is not None, f"without frame {lost} the swing is not told"
        for change in moved(lost, whole.verdict, again.verdict):
            assert not change.called_otherwise, f"frame {lost}: {change.after.reason}"
            assert abs(change.sigmas) <= 1, f"frame {lost}: {change.before} {change.after}"
