"""Score what has no result yet, and keep each result as soon as it is there."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from pydantic import ValidationError

from baycue.folder.clip_result import ClipResult, Origin, origin_of
from baycue.folder.clips import Clip
from baycue.folder.engine import Answer, Engine, Stopped, stopped_by
from baycue.folder.store import Store, read_result
from baycue.keep.record import PlanText

KEPT, NEW = "kept", "scored"


@dataclass(frozen=True, slots=True)
class Told:
    """What is known of one clip, and how that came about.

    ``news`` is "kept" for a result that was there, else "scored" or "scored anew: ..." with
    what had changed.  Without a result, ``stopped`` says why none came.
    """

    clip: Clip
    news: str
    result: ClipResult | None = None
    stopped: str | None = None


def score_folder(
    clips: Iterable[Clip], plan: PlanText, store: Store, engine: Engine
) -> Iterator[Told]:
    """Tell of every clip once: first those that have their result, then each as it is scored.

    A clip without a usable answer is told of and does not stop the others.  Raises OutputError
    if results cannot be written.
    """
    before = store.by_clip()
    news: dict[Clip, str] = {}
    for clip in clips:
        told = _look_up(clip, plan, store, before.get(clip.name, ()))
        if told.result or told.stopped:
            yield told
        else:
            news[clip] = told.news
    for clip, answer in engine(tuple(news), plan):
        yield _taken(clip, answer, plan, store, news[clip])


def _look_up(clip: Clip, plan: PlanText, store: Store, files: Sequence[Path]) -> Told:
    try:
        origin = origin_of(clip.path, plan)
    except OSError as error:
        return Told(clip, NEW, stopped=stopped_by(error).reason)
    found = store.find(clip.name, origin)
    if found:
        return Told(clip, KEPT, found)
    if store.file(clip.name, origin) in files:
        return Told(clip, "scored anew: its result was damaged")
    earlier = [result.origin for file in files if (result := read_result(file))]
    return Told(clip, _why_anew(origin, earlier))


def _why_anew(now: Origin, earlier: Sequence[Origin]) -> str:
    """What sets this clip apart from the nearest result that there is of it."""
    if not earlier:
        return NEW
    return f"scored anew: {min((_changes(now, was) for was in earlier), key=len)}"


def _changes(now: Origin, was: Origin) -> str:
    changed = {
        "the clip": now.clip_sha256 != was.clip_sha256,
        "the plan": now.plan_sha256 != was.plan_sha256,
        "the program": (now.program, now.usual_band) != (was.program, was.usual_band),
    }
    return f"{' and '.join(name for name, differs in changed.items() if differs)} changed"


def _taken(clip: Clip, answer: Answer, plan: PlanText, store: Store, news: str) -> Told:
    if isinstance(answer, Stopped):
        return Told(clip, news, stopped=answer.reason)
    try:
        return Told(clip, news, store.keep(clip.name, answer))
    except ValidationError:
        return Told(clip, news, stopped="what scored it answers in another format")
