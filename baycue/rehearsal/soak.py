"""Simulated practice for minutes or hours: `baycue live` itself, watched from outside."""

import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import IO

from baycue.errors import BaycueError, InUseError, OutputError
from baycue.keep.log import SwingLog
from baycue.keep.place import Place
from baycue.keep.retention import Rule, delete_films, films, may_go
from baycue.rehearsal.camera_process import CameraProcess, served_practice
from baycue.rehearsal.process_look import look_at
from baycue.rehearsal.soak_record import (
    FACTS,
    LOOKS,
    SAID,
    VITALS,
    Look,
    SoakFacts,
    SoakRecord,
    line_of,
    newest_vitals,
    read_record,
)
from baycue.rehearsal.surroundings import surroundings

EVERY_S = 5.0
_RETENTION_EVERY_S = 60.0
_BEGINS_S, _ENDS_S, _READ_S = 300.0, 60.0, 0.3

SwingsSent = Callable[[int], int]


@dataclass(frozen=True, slots=True)
class SoakMeans:
    """Where the samples are, by which plan they are judged, and how many of the first so many
    pictures show an impact.
    """

    samples: Path
    plan: Path
    swings_sent: SwingsSent


def soak(folder: Path, facts: SoakFacts, means: SoakMeans) -> SoakRecord:
    """Practise and note; the folder must be new to soaks.  OutputError, BaycueError if not."""
    _begin(folder, facts)
    with ExitStack() as stack:
        shown = stack.enter_context(served_practice(means.samples))
        if facts.lacking is None:
            stack.enter_context(surroundings())
        kept = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="baycue-soak-")))
        live = stack.enter_context(_live(folder, facts, means.plan, shown.url, kept))
        looks = stack.enter_context((folder / LOOKS).open("x", encoding="utf-8"))
        _watch(live, folder, facts, shown, means.swings_sent, Place(kept), looks)
    return read_record(folder)


def _begin(folder: Path, facts: SoakFacts) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    try:
        with (folder / FACTS).open("x", encoding="utf-8") as file:
            json.dump(asdict(facts), file, indent=1)
    except FileExistsError:
        raise OutputError(
            f"{folder}: a soak was begun there already; --read tells it, another --out runs anew"
        ) from None


@contextmanager
def _live(
    folder: Path, facts: SoakFacts, plan: Path, url: str, kept: Path
) -> "Iterator[subprocess.Popen[bytes]]":
    """The session, as a golfer would start it; ended as by Ctrl-C."""
    command = [sys.executable, "-m", "baycue.cli", "live", "--source", url, "--plan", str(plan)]
    command += ["--keep", str(kept), "--vitals", str(folder / VITALS)]
    if facts.lacking is not None:
        command += ["--no-window", "--no-sound"]
    if shutil.which("setpriv"):  # so that it does not outlive a soak that is killed
        command = ["setpriv", "--pdeathsig", "INT", *command]
    with (folder / SAID).open("xb") as said:
        process = subprocess.Popen(
            command, stdout=said, stderr=subprocess.STDOUT, stdin=subprocess.DEVNULL
        )
        try:
            yield process
        finally:
            process.send_signal(signal.SIGINT)
            try:
                process.wait(_ENDS_S)
            except subprocess.TimeoutExpired:
                process.kill()
                process.wait()


def _watch(
    live: "subprocess.Popen[bytes]",
    folder: Path,
    facts: SoakFacts,
    shown: CameraProcess,
    swings_sent: SwingsSent,
    place: Place,
    looks: IO[str],
) -> None:
    _wait_until_it_watches(live, folder)
    next_look = next_retention = time.monotonic()
    until = next_look + 60 * facts.minutes
    while next_look <= until:
        time.sleep(max(next_look - time.monotonic(), 0))
        _refuse_ended(live, folder)
        looks.write(line_of(_look(folder, shown, swings_sent)))
        looks.flush()
        if next_look >= next_retention and place.log.exists():
            next_retention = next_look + _RETENTION_EVERY_S
            _keep_small(place, facts.films_gb)
        next_look = max(next_look + EVERY_S, time.monotonic())
    # What was sent by the last look is to be read before the session ends.
    time.sleep(_READ_S)


def _wait_until_it_watches(live: "subprocess.Popen[bytes]", folder: Path) -> None:
    until = time.monotonic() + _BEGINS_S
    while newest_vitals(folder) is None:
        _refuse_ended(live, folder)
        if time.monotonic() > until:
            raise BaycueError(f"the live session does not begin within {_BEGINS_S:.0f} s")
        time.sleep(0.1)


def _refuse_ended(live: "subprocess.Popen[bytes]", folder: Path) -> None:
    if live.poll() is not None:
        raise BaycueError(f"the live session ended by itself; {folder / SAID} tells what of")


def _look(folder: Path, shown: CameraProcess, swings_sent: SwingsSent) -> Look:
    vitals = newest_vitals(folder)
    processes = [look_at(each) for each in vitals.processes] if vitals else []
    live, scoring = (*processes, None, None)[:2]
    sent, load = shown.sent, os.getloadavg()[0]
    camera, swings = look_at(shown.process_id), swings_sent(sent)
    return Look(time.monotonic_ns(), live, scoring, camera, sent, swings, load)


def _keep_small(place: Place, films_gb: float) -> None:
    """The program's own rule for old films, so that hours of practice fit on the disk.

    If the film that is just being made small is not let go of in time, the next minute will do.
    """
    with SwingLog(place.log) as log, suppress(InUseError):
        rule = Rule(most_bytes=round(films_gb * 1e9))
        delete_films(log, place, may_go(films(log), rule, datetime.now(UTC)))
