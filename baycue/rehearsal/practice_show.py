"""A golfer at practice for the camera to show: what lies between swings too, at its own pace.

Only sample recordings are cut together, whole frames at their own rate.  A round is six balls: the
golfer tees one and rehearses twice, stands to it, swings, and stays in the finish.  Where the
golfer stands still the still frames of the recording go to and fro, so each has noise of its own.
At a cut the golfer is at once somewhere else, which no real one is.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from baycue.rehearsal.looped_clip import LoopedClip, looped_clip

TEE = "tee_and_rehearsal_30fps"
SWINGS = ("knee_fail_30fps", "knee_pass_30fps")
"""The same golfer in the same bay as in ``TEE``; in turn."""

WATCHING = "watching"
"""The word for ``watching_order`` on the camera's command line."""

FPS = 30
BETWEEN_SWINGS_S = (20, 26, 30, 23, 28, 25)
"""A ball every 25 s or so is 140 an hour: brisk, so that as much happens as ever will."""
_FINISH_S, _STANDS_S, _WATCHES_S = 3, 2, 15
_STILL_FRAMES, _FINISH_FRAMES = 24, 12
"""Of a swing's recording the first 0.8 s and the last 0.4 s, in which the golfer stands still."""


@dataclass(frozen=True, slots=True)
class Cut:
    """One frame of one recording."""

    clip: str
    frame: int


def practice_order(frames: Mapping[str, int]) -> tuple[Cut, ...]:
    """One round; ``frames``: how many each recording has."""
    order: list[Cut] = []
    for ball, seconds in enumerate(BETWEEN_SWINGS_S):
        clip = SWINGS[ball % len(SWINGS)]
        finish = range(frames[clip] - _FINISH_FRAMES, frames[clip])
        moving = frames[TEE] + frames[clip] + _FINISH_S * FPS
        address = to_and_fro(range(_STILL_FRAMES), seconds * FPS - moving)
        order += [Cut(TEE, k) for k in range(frames[TEE])]
        order += [Cut(clip, k) for k in (*reversed(address), *range(frames[clip]))]
        order += [Cut(clip, k) for k in to_and_fro(finish[::-1], _FINISH_S * FPS)]
    return tuple(order)


def watching_order(frames: Mapping[str, int]) -> tuple[Cut, ...]:
    """Two balls, after each of which the golfer stays in the finish and watches the replay."""
    order: list[Cut] = []
    for clip in SWINGS:
        finish = range(frames[clip] - _FINISH_FRAMES, frames[clip])
        address = to_and_fro(range(_STILL_FRAMES), _STANDS_S * FPS)
        order += [Cut(clip, k) for k in (*reversed(address), *range(frames[clip]))]
        order += [Cut(clip, k) for k in to_and_fro(finish[::-1], _WATCHES_S * FPS)]
    return tuple(order)


def to_and_fro(frames: Sequence[int], count: int) -> list[int]:
    """So many of them, from the first to the last and back again, and so on."""
    way = [*frames, *frames[-2:0:-1]]
    return [way[k % len(way)] for k in range(count)]


def swings_sent(order: Sequence[Cut], impacts: Mapping[str, int], sent: int) -> int:
    """How many impacts were among the first so many pictures; ``impacts``: a frame a recording."""
    at = [k for k, cut in enumerate(order) if impacts.get(cut.clip) == cut.frame]
    rounds, rest = divmod(sent, len(order))
    return rounds * len(at) + sum(k < rest for k in at)


Order = Callable[[Mapping[str, int]], tuple[Cut, ...]]


def practice_show(samples: Path, in_order: Order = practice_order) -> LoopedClip:
    """Packed; RecordingError if a sample cannot be read."""
    jpegs = {name: looped_clip(samples / f"{name}.mp4").jpegs for name in (TEE, *SWINGS)}
    order = in_order({name: len(each) for name, each in jpegs.items()})
    due_ns = tuple(round(k * 1e9 / FPS) for k in range(len(order)))
    period_ns = round(len(order) * 1e9 / FPS)
    return LoopedClip(tuple(jpegs[cut.clip][cut.frame] for cut in order), due_ns, period_ns)
