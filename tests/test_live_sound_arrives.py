"""Sound that was missing when the program began, and came before the session watched."""

import io
from dataclasses import dataclass

import pytest

from baycue.commands.keeping import KeepRequest
from baycue.commands.live import LiveRequest, run_live
from baycue.commands.terminal import terminal
from baycue.cues.tones import Tone
from tests.command_line import PLAN
from tests.conftest import MakeClip


@dataclass
class ArrivingSpeaker:
    """Is silent until it has been described once, as at the start of a session."""

    is_alive: bool = False

    def play(self, tone: Tone) -> None:
        """Nobody swings."""

    def guide(self, voice: object) -> None:
        """Nobody holds still."""

    def close(self) -> None:
        """Nothing is open."""

    def describe(self) -> str:
        before, self.is_alive = self.is_alive, True
        return "a card" if before else "no sound: there is no card; trying again"


@pytest.mark.parametrize("there", [False, True])
def test_it_is_told_that_sound_is_there_again_only_if_it_was_missed(
    there: bool, make_clip: MakeClip, monkeypatch: pytest.MonkeyPatch
) -> None:
    clip = make_clip([k * 33_333_333 for k in range(6)])
    monkeypatch.setattr("baycue.commands.live.live_speaker", lambda _: ArrivingSpeaker(there))
    told = io.StringIO()
    request = LiveRequest(
        str(clip), (PLAN,), window=False, skip_set_up=True, keep=KeepRequest(off=True)
    )
    run_live(request, terminal(told))
    lines = told.getvalue().splitlines()
    assert (lines[0] == "a card") == there
    assert ("sound again" in lines) == (not there)
