"""A live window with an invented swing played again in it, until Escape; prints what it shows."""

import sys
import time
from dataclasses import replace
from pathlib import Path

from baycue.capture.ring import Bounds, Ring
from baycue.capture.shot import Shot
from baycue.cues.keys import Key
from baycue.cues.live_screen import LiveScreen
from baycue.live.again import READ_FIRST_NS, SwingAgain
from baycue.live.seen_again import heed_replay
from baycue.live.view import Health, LiveView, Stage
from baycue.live.view_writer import ViewWriter
from baycue.replay.film import span_of
from baycue.replay.others import Other
from baycue.replay.showing import Showing
from tests.replayed_swing import left_handers_film, swing_film
from tests.scored_swing import scored_swing

HEALTH = Health(True, 30, 0, True, "default")


def words_of(shown: Showing) -> str:
    """``plays``, or which picture it stands at and what is beside it."""
    if shown.player.playing:
        return "plays"
    return f"stands at {shown.index} {shown.other_name} {shown.together.value}"


def main(out: Path) -> None:
    ring: Ring[Shot] = Ring(Bounds(60.0, 1 << 30))
    for shot in swing_film().shots:
        ring.put(shot)
    scored, screen = scored_swing(), LiveScreen()
    again, writer = SwingAgain(ring), ViewWriter(out)
    again.known(scored, lambda: [Other("monday, swing 3, pass", left_handers_film)])
    print(screen.describe(), flush=True)
    base_ns = span_of(scored)[1] + READ_FIRST_NS - time.monotonic_ns()
    again.shown(span_of(scored)[1], scored.verdict, True)
    asked, told, until = tuple[object, ...](), "", time.monotonic() + 60
    while Key.QUIT not in asked and time.monotonic() < until:
        now_ns = base_ns + time.monotonic_ns()
        page = again.shown(now_ns, scored.verdict, True, "1 of 2 passed")
        view = LiveView(Stage.VERDICT, scored.verdict, replay=page, health=HEALTH)
        screen.show(replace(view, notice=writer.words(now_ns)))
        asked = screen.keys()
        for wish in asked:
            if not isinstance(wish, Key):
                heed_replay(wish, again, writer, now_ns)
        writer.let(free=True)
        for line in writer.news(now_ns):
            print(line, flush=True)
        line = words_of(page.showing) if page else ""
        if line != told:
            print(line, flush=True)
            told = line
        time.sleep(1 / 60)
    screen.close()
    again.close()
    writer.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
