"""A session that dies says so: on the window, which outlives it, and in the terminal."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from baycue.cues.stopped_page import draw_stopped
from baycue.live.cut_off import CUT_OFF
from baycue.rehearsal.faults.display import Display, same_headline, shown_by
from tests.sound_server import wait_until
from tests.test_cues_display import needs_xvfb

_DIES = """
import os, signal
from baycue.cues.display import SIZE_PX
from baycue.cues.distant_window import DistantWindow

if __name__ == "__main__":
    window = DistantWindow(SIZE_PX, False, 0)
    window.wait_until_open()
    window.show()
    os.kill(os.getpid(), signal.SIGKILL)
"""
_SCORES = """
import os
from baycue.live.process_scorer import ProcessScorer

if __name__ == "__main__":
    scorer = ProcessScorer()
    {end}
"""


@needs_xvfb
def test_the_window_of_a_session_that_was_killed_says_so_until_a_key(tmp_path: Path) -> None:
    display, script = Display(), tmp_path / "dies.py"
    script.write_text(_DIES)
    display.start()
    try:
        wanted = shown_by(draw_stopped)
        assert not same_headline(display.picture(), wanted)
        subprocess.run([sys.executable, script], env={**os.environ, **display.env}, check=False)
        wait_until(lambda: same_headline(display.picture(), wanted))
    finally:
        display.kill()


@pytest.mark.parametrize("dies", [True, False])
def test_the_terminal_is_told_by_the_scoring_process(dies: bool, tmp_path: Path) -> None:
    script = tmp_path / "scores.py"
    script.write_text(_SCORES.format(end="os.kill(os.getpid(), 9)" if dies else "scorer.close()"))
    done = subprocess.run([sys.executable, script], capture_output=True, text=True, check=False)
    assert (CUT_OFF in done.stdout) == dies
    assert "Traceback" not in done.stderr
