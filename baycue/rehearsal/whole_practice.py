"""A practice with everything at once: films kept and made small, keys pressed, views written.

`baycue live` as a golfer starts it, with a window, a sound card, a camera on the network and the
coach's reference; somebody presses keys while the last swing is seen again.
"""

import re
import time
from collections.abc import Iterator
from contextlib import ExitStack
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory

import cv2

from baycue.errors import OutputError
from baycue.keep.place import Place
from baycue.live.vitals import answers_of
from baycue.rehearsal.camera_process import served_practice
from baycue.rehearsal.faults.display import Display
from baycue.rehearsal.faults.live_process import VERDICT, Line, LiveProcess
from baycue.rehearsal.faults.sound import SoundServer
from baycue.rehearsal.practice_left import left_wrong
from baycue.rehearsal.soak import SwingsSent

_WAITS_S, _BEGINS_S, _LOOK_S, _PAINTS_S = 120.0, 300.0, 0.3, 1.5
_WRITTEN, _NOT_JUDGED = r"^written to ", "cannot be judged"
_MOVES = 0.005
"""The share of the screen that must change from look to look before a replay is said to play."""
KEPT, EXPORTED, VITALS, SAID = "kept", "exported", "vitals.jsonl", "complaints.txt"


@dataclass(frozen=True, slots=True)
class Act:
    """A key to be pressed; ``picture``: what the screen's picture after it is called, if taken."""

    key: str
    picture: str = ""


WRITES = {"m": ".mp4", "i": ".gif", "t": ".png"}
ACTS: tuple[tuple[Act, ...], ...] = (
    (
        Act("l", "downswing"),
        Act("Next", "reference"),
        Act("g", "ghost"),
        Act("m"),
        Act("i"),
        Act("t"),
        Act("space", "paused"),
        Act("space", "going_on"),
    ),
    (Act("6", "at_p6"), Act("Next"), Act("Next", "earlier"), Act("t")),
    (Act("h"), Act("r", "once_more")),
)
"""What is done in each replay, over and over."""


@dataclass(frozen=True, slots=True)
class PracticeMeans:
    """The sample recordings' folder, the plan, the coach's reference, and how many of the first so
    many pictures show an impact.
    """

    samples: Path
    plan: Path
    reference: Path
    swings_sent: SwingsSent


@dataclass(slots=True)
class PracticeSeen:
    """``wrong``: what should not be, a line each.  ``pictures``: of the screen.  ``asked``: the
    endings of the views that were asked for, ``written`` what was told of them.  ``impacts``: how
    many the camera showed before the end was asked for.

    ``answers_ms``: software latency of each answer; None for a swing that could not be judged.
    """

    impacts: int = 0
    verdicts: list[tuple[int, str]] = field(default_factory=list)
    asked: list[str] = field(default_factory=list)
    written: list[str] = field(default_factory=list)
    pictures: list[Path] = field(default_factory=list)
    answers_ms: list[float | None] = field(default_factory=list)
    told_at_the_end: list[str] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)


def practise(out: Path, means: PracticeMeans, balls: int) -> PracticeSeen:
    """Until so many balls have been answered; ``out`` must be new.  OutputError if it is not."""
    try:
        out.mkdir(parents=True)
    except FileExistsError:
        raise OutputError(f"{out}: is there already; another --out rehearses anew") from None
    seen = PracticeSeen()
    with ExitStack() as stack:
        camera = stack.enter_context(served_practice(means.samples, watching=True))
        sound = SoundServer(Path(stack.enter_context(TemporaryDirectory(prefix="baycue-"))))
        stack.callback(sound.stop)
        sound.start()
        display = Display()
        stack.callback(display.kill)
        display.start()
        live = LiveProcess(_words(out, means, camera.url), sound.env | display.env, out / SAID)
        stack.callback(live.kill)
        _Golfer(live, display, out, seen).practise(balls)
        seen.impacts = means.swings_sent(camera.sent)
        display.do("key", "q")
        code = live.ended()
    if code != 0:
        seen.wrong.append(f"ended with code {code}")
    _look_over(live, out, seen)
    return seen


def _words(out: Path, means: PracticeMeans, url: str) -> list[str]:
    plan, reference = str(means.plan), str(means.reference)
    words = ["--source", url, "--plan", plan, "--skip-set-up", "--against", reference]
    words += ["--keep", str(out / KEPT), "--out", str(out / EXPORTED)]
    return [*words, "--vitals", str(out / VITALS)]


class _Golfer:
    """Waits for verdicts, and presses keys after each."""

    def __init__(self, live: LiveProcess, display: Display, out: Path, seen: PracticeSeen) -> None:
        self._live, self._display, self._out, self._seen = live, display, out, seen
        self._heeded = 0

    def practise(self, balls: int) -> None:
        """Until so many balls have been answered, or should have been."""
        for ball in range(1, balls + 1):
            if not self._answered(_WAITS_S if ball > 1 else _BEGINS_S):
                self._seen.wrong.append(f"ball {ball} was not answered")
                continue
            if not self._replay_plays():
                self._seen.wrong.append(f"ball {ball}: no replay played")
                continue
            for act in ACTS[(ball - 1) % len(ACTS)]:
                self._do(act, ball)

    def _answered(self, within_s: float) -> bool:
        def is_it(line: Line) -> bool:
            return VERDICT.match(line.text) is not None or _NOT_JUDGED in line.text

        found = self._live.wait_for(is_it, within_s, self._heeded)
        if found is None:
            return False
        self._heeded = self._live.lines.index(found) + 1
        return VERDICT.match(found.text) is not None

    def _replay_plays(self) -> bool:
        """Whether the screen comes to move, twice running."""
        until, moved, before = time.monotonic() + _WAITS_S, 0, self._display.picture()
        while moved < 2 and time.monotonic() < until:
            time.sleep(_LOOK_S)
            now = self._display.picture()
            changed = now.shape != before.shape or (now != before).any(axis=2).mean() > _MOVES
            moved, before = moved + 1 if changed else 0, now
        return moved == 2

    def _do(self, act: Act, ball: int) -> None:
        self._display.window()
        self._display.do("key", act.key)
        self._seen.asked += [WRITES[act.key]] if act.key in WRITES else []
        if act.picture:
            time.sleep(_PAINTS_S)
            path = self._out / f"ball_{ball}_{act.picture}.png"
            cv2.imwrite(str(path), self._display.picture())
            self._seen.pictures.append(path)


def _look_over(live: LiveProcess, out: Path, seen: PracticeSeen) -> None:
    texts = [line.text for line in live.lines]
    seen.verdicts = [(int(m[1]), m[2]) for t in texts if (m := VERDICT.match(t))]
    seen.written = [t for t in texts if re.search(_WRITTEN, t)]
    seen.answers_ms = list(answers_of(out / VITALS))
    seen.told_at_the_end = list(_at_the_end(texts))
    if "Traceback" in live.complaints():
        seen.wrong.append(f"a traceback: {out / SAID}")
    if len(seen.verdicts) < seen.impacts:
        seen.wrong.append(f"{len(seen.verdicts)} of {seen.impacts} impacts shown were answered")
    told = sorted(Path(line).suffix for line in seen.written)
    if told != sorted(seen.asked):
        seen.wrong.append(f"views asked for: {sorted(seen.asked)}, written: {told}")
    seen.wrong += left_wrong(Place(out / KEPT), out / EXPORTED, seen.verdicts, seen.written)


def _at_the_end(texts: list[str]) -> Iterator[str]:
    wanted = r"kept in|made small|to be made small|still being written|too fast"
    return (text for text in texts if re.search(wanted, text))
