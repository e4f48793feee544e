"""What is kept of one idle clip, and the sums over many."""

from collections.abc import Sequence
from dataclasses import dataclass

from pydantic import TypeAdapter

from baycue.bench.idle_population import IdleDraw


@dataclass(frozen=True, slots=True)
class IdleRecord:
    """One clip without a swing.

    ``golfer_frames``: frames in which a golfer was in the bay; ``seen_frames``: in which the
    program saw one; ``seen_with_golfer``: both.  ``swings_at_s``: when it told of a swing, s,
    judged or refused; every one is false.
    """

    drawn: IdleDraw
    frames: int
    golfer_frames: int
    seen_frames: int
    seen_with_golfer: int
    swings_at_s: tuple[float, ...]
    took_s: float

    @property
    def minutes(self) -> float:
        """How long the clip lasts."""
        return self.frames / self.drawn.drawn.fps / 60


@dataclass(frozen=True, slots=True)
class IdleSums:
    """Clips of one activity, or of all, together.

    ``seen_share`` of the frames with a golfer in the bay; ``ghost_share``: frames without one
    in which the program saw one; NaN if there are none such.
    """

    activity: str
    clips: int
    minutes: float
    seen_share: float
    ghost_share: float
    false_swings: int
    false_in: tuple[int, ...]


_ADAPTER = TypeAdapter(IdleRecord)


def to_line(record: IdleRecord) -> str:
    """The record as one line of JSON."""
    return _ADAPTER.dump_json(record).decode()


def from_line(line: str) -> IdleRecord:
    """The record of a line; raises ValueError if it is none."""
    return _ADAPTER.validate_json(line)


def sums_of(activity: str, records: Sequence[IdleRecord]) -> IdleSums:
    """The sums over some records."""
    with_golfer = sum(r.golfer_frames for r in records)
    without = sum(r.frames for r in records) - with_golfer
    seen_with = sum(r.seen_with_golfer for r in records)
    ghosts = sum(r.seen_frames for r in records) - seen_with
    return IdleSums(
        activity=activity,
        clips=len(records),
        minutes=sum(r.minutes for r in records),
        seen_share=seen_with / with_golfer if with_golfer else float("nan"),
        ghost_share=ghosts / without if without else float("nan"),
        false_swings=sum(len(r.swings_at_s) for r in records),
        false_in=tuple(r.drawn.number for r in records if r.swings_at_s),
    )


def by_activity(records: Sequence[IdleRecord]) -> tuple[IdleSums, ...]:
    """The sums of each activity in the order of the clips, and of all last."""
    names = dict.fromkeys(record.drawn.activity for record in records)
    each = [sums_of(n, [r for r in records if r.drawn.activity == n]) for n in names]
    return (*each, sums_of("all", records))
