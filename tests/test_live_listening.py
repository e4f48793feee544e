"""Eye and ear together in a session: what is told of a swing, and when."""

from dataclasses import dataclass, field

import numpy as np
import pytest

from baycue.ear.impact import Hearing
from baycue.ear.ring import Sound
from baycue.live.listening import Listening
from baycue.swing.swing import Checkpoint, CheckpointName
from tests.test_ear_strike import AT_S, LENGTH_S, RATE_HZ, click, noise

MS = 1_000_000
FIRST_NS = 50_000 * MS


@dataclass
class HeardBay:
    """A microphone beside a ball that was, or was not, struck."""

    struck: bool = True
    is_alive: bool = True
    closed: bool = False
    hearing: Hearing = field(default_factory=lambda: Hearing(2.0, 0.010))

    def last(self) -> Sound:
        sound = noise("pink", 0.005, 1) + (click(AT_S, 0.5) if self.struck else 0)
        return Sound(np.asarray(sound, dtype=np.float32), RATE_HZ, FIRST_NS)

    def close(self) -> None:
        self.closed = True

    @property
    def impact_ns(self) -> int:
        return FIRST_NS + round((AT_S - self.hearing.travel_s - self.hearing.latency_s) * 1e9)

    @property
    def over_ns(self) -> int:
        return FIRST_NS + round(LENGTH_S * 1e9)


def seen_at(time_ns: int) -> Checkpoint:
    return Checkpoint(CheckpointName.IMPACT, time_ns, 10 * MS)


@pytest.mark.parametrize(
    ("struck", "told"), [(True, "Ball struck"), (False, "Practice swing, not counted")]
)
def test_a_ball_is_told_from_a_practice_swing(struck: bool, told: str) -> None:
    bay = HeardBay(struck)
    listening = Listening(bay)
    listening.seen(3, seen_at(bay.impact_ns + 8 * MS))
    assert listening.heard(bay.impact_ns + 100 * MS) is None
    assert listening.words is None
    heard = listening.heard(bay.over_ns)
    assert heard is not None
    assert listening.words == heard.words == told
    assert heard.line.startswith("swing 3: ")
    if struck:
        assert abs(heard.impact.time_ns - bay.impact_ns) < 3 * MS
        assert heard.impact.sigma_ns < 10 * MS
    assert listening.heard(bay.over_ns) is None, "told once"


def test_the_next_swing_takes_the_words_away() -> None:
    bay = HeardBay()
    listening = Listening(bay)
    listening.seen(1, seen_at(bay.impact_ns))
    listening.heard(bay.over_ns)
    listening.seen(2, None)
    assert listening.words is None
    assert listening.heard(bay.over_ns) is None


def test_a_dead_microphone_knows_nothing() -> None:
    bay = HeardBay(is_alive=False)
    listening = Listening(bay)
    listening.seen(1, seen_at(bay.impact_ns))
    heard = listening.heard(bay.over_ns)
    assert heard is not None
    assert listening.words is None
    assert "heard nothing" in heard.line
    listening.close()
    assert bay.closed


def test_without_a_microphone_nothing_is_said() -> None:
    listening = Listening(None)
    listening.seen(1, seen_at(FIRST_NS))
    assert listening.heard() is None
    assert listening.words is None
    listening.close()
