"""A sample's swing scored again and again, each time with one frame lost.

    python -m tests.lost_frames knee_pass_30fps head_rise_30fps

goes over every frame from address to finish and prints how far values and answers move.
"""

import sys
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from baycue.capture.recording import RecordingSource
from baycue.glimpse import Glimpse, glimpses
from baycue.plan.load import load_plan
from baycue.plan.plan import Plan
from baycue.pose.landmarker import MediaPipePose
from baycue.spine import FinishedSwing, ScoredSwing, swing_news
from baycue.swing.swing import CheckpointName
from baycue.verdict.verdict import Outcome, SwingVerdict, TargetVerdict
from tests.command_line import PLAN, SAMPLES


@cache
def seen(sample: str) -> tuple[Glimpse, ...]:
    """The real pose model's look at every frame of a sample, once."""
    with RecordingSource(SAMPLES / f"{sample}.mp4") as source, MediaPipePose() as estimator:
        return tuple(glimpses(source, estimator))


@cache
def plan() -> Plan:
    """Knee past ankle at P6, head rise, tempo."""
    return load_plan(PLAN)


def scored(frames: Iterable[Glimpse]) -> ScoredSwing | None:
    """The one swing in them, as it is first told; None if it is not found or not judged."""
    told = [item for item in swing_news(frames, plan()) if not isinstance(item, FinishedSwing)]
    return told[0] if len(told) == 1 and isinstance(told[0], ScoredSwing) else None


def without(frames: tuple[Glimpse, ...], lost: int) -> tuple[Glimpse, ...]:
    """All but one."""
    return frames[:lost] + frames[lost + 1 :]


def from_address_to_finish(sample: str) -> range:
    """The places of the frames that a lost one may matter in."""
    whole = scored(seen(sample))
    assert whole is not None
    address = whole.evidence.swing.at(CheckpointName.ADDRESS)
    assert address is not None
    stamps_ns = [g.stamp_ns for g in seen(sample)]
    first = next(k for k, ns in enumerate(stamps_ns) if ns >= address.time_ns)
    end_ns = whole.decided_ns + 1_000_000_000
    return range(first, sum(ns <= end_ns for ns in stamps_ns))


def about_checkpoints(sample: str) -> set[int]:
    """The frames on either side of each checkpoint."""
    whole = scored(seen(sample))
    assert whole is not None
    stamps_ns = [g.stamp_ns for g in seen(sample)]
    after = [
        next(k for k, ns in enumerate(stamps_ns) if ns >= c.time_ns)
        for c in whole.evidence.swing.checkpoints
    ]
    return {k for place in after for k in (place - 1, place)}


@dataclass(frozen=True, slots=True)
class Moved:
    """What one lost frame did to one target."""

    lost: int
    before: TargetVerdict
    after: TargetVerdict

    @property
    def sigmas(self) -> float:
        """How far the value moved, in the one-sigma that had been stated; 0.0 if unmeasured."""
        one, other = self.before.measurement, self.after.measurement
        return (other.value - one.value) / one.sigma if one and other else 0.0

    @property
    def called_otherwise(self) -> bool:
        """Whether an answer that had been called, beyond its band, is not the same any more."""
        called = self.before.outcome is not Outcome.TOO_CLOSE
        return called and self.after.outcome is not self.before.outcome


def moved(lost: int, before: SwingVerdict, after: SwingVerdict) -> Iterator[Moved]:
    """Target by target."""
    for one, other in zip(before.targets, after.targets, strict=True):
        yield Moved(lost, one, other)


def main(samples: list[str]) -> None:
    """Print what every single frame does."""
    for sample in samples:
        frames = seen(sample)
        whole = scored(frames)
        assert whole is not None
        places = from_address_to_finish(sample)
        print(f"{sample}: {len(places)} frames lost one at a time")
        all_moved: list[Moved] = []
        for lost in places:
            again = scored(without(frames, lost))
            if again is None:
                print(f"  frame {lost}: the swing is not told")
                continue
            for change in moved(lost, whole.verdict, again.verdict):
                all_moved.append(change)
                if change.after.outcome is not change.before.outcome:
                    print(f"  frame {lost}: {change.after.reason}", flush=True)
        for name in [t.target_name for t in whole.verdict.targets]:
            these = [m for m in all_moved if m.before.target_name == name]
            worst = max(these, key=lambda m: abs(m.sigmas))
            changed = [m.lost for m in these if m.after.outcome is not m.before.outcome]
            otherwise = [m.lost for m in these if m.called_otherwise]
            print(
                f"  {name}: {these[0].before.reason}\n    moves by up to {abs(worst.sigmas):.2f} "
                f"sigma (frame {worst.lost}); answered otherwise: {changed or 'never'}; "
                f"called before: {otherwise or 'none'}"
            )


if __name__ == "__main__":
    main(sys.argv[1:] or ["knee_pass_30fps"])
