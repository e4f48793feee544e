"""What the golfer's keys do."""

import time
from collections.abc import Callable

from baycue.cues.keys import Key
from baycue.live.after_swing import sum_up
from baycue.live.next_swing import turn_over
from baycue.live.parts import Parts
from baycue.live.seen_again import heed_replay
from baycue.verdict.verdict import Outcome


def heed_keys(parts: Parts, stop: Callable[[], None]) -> None:
    """Do what has been pressed since the last look; ``stop`` ends the session."""
    wishes = parts.means.screen.keys()
    for key in wishes:
        if isinstance(key, Key):
            _heed(parts, key, stop)
        else:
            heed_replay(key, parts.again, parts.writer, time.monotonic_ns())


def _heed(parts: Parts, key: Key, stop: Callable[[], None]) -> None:
    if key is Key.QUIT:
        stop()
    elif key is Key.PAUSE:
        parts.analysis.paused = not parts.analysis.paused
    elif key is Key.ANSWER and parts.setting_up is not None:
        parts.setting_up.go_on()
    elif key is Key.ANSWER:
        parts.answers.tell_what_is_due(requested=True)
    elif key is Key.REPLAY:
        parts.answers.again()
        parts.again.anew()
    elif key is Key.NEXT_TARGETS:
        turn_over(parts)
    elif key in (Key.SKIP, Key.SKIP_BLOCK) and parts.practice is not None:
        sum_up(parts, parts.practice.skip(block=key is Key.SKIP_BLOCK))
    elif key is Key.SET_UP and parts.set_up is not None:
        parts.set_up.again()
    elif key is Key.SOUND_CHECK:
        parts.answers.sound(Outcome.PASS)
