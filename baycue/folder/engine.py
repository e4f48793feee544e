"""What scores many clips: an engine takes clips and a plan and hands back each result."""

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from functools import partial

from baycue.errors import BaycueError
from baycue.folder.clip_result import clip_result
from baycue.folder.clips import Clip
from baycue.folder.processes import in_processes
from baycue.keep.record import PlanText


@dataclass(frozen=True, slots=True)
class Stopped:
    """No result came for a clip, and why; it is tried again the next time."""

    reason: str


Answer = bytes | Stopped
Engine = Callable[[Sequence[Clip], PlanText], Iterator[tuple[Clip, Answer]]]
Score = Callable[[Clip, PlanText], bytes]


def result_of(clip: Clip, plan: PlanText) -> bytes:
    """The one function that every engine runs for a clip."""
    return clip_result(clip.path, plan)


def with_plan(score: Score, plan: PlanText, clip: Clip) -> bytes:
    """``score`` with its arguments in the order in which ``partial`` fixes them."""
    return score(clip, plan)


def process_engine(workers: int, score: Score = result_of) -> Engine:
    """An engine of so many processes on this machine."""

    def run(clips: Sequence[Clip], plan: PlanText) -> Iterator[tuple[Clip, Answer]]:
        for clip, done in in_processes(clips, workers, partial(with_plan, score, plan)):
            error = done.exception()
            yield clip, done.result() if error is None else stopped_by(error)

    return run


def stopped_by(error: BaseException) -> Stopped:
    """What to say of a clip whose scoring raised an error."""
    if isinstance(error, BaycueError):
        return Stopped(str(error))
    if isinstance(error, BrokenProcessPool):
        return Stopped("the process that scored it died: a fault, or too little memory")
    if isinstance(error, OSError):
        return Stopped(f"cannot be read ({error.strerror or error})")
    said = str(error).splitlines() or [""]
    return Stopped(f"{type(error).__name__}: {said[0]}")
