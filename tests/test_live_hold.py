"""What a hold sounds and when it is silent, without pictures."""

from dataclasses import dataclass, field, replace

import pytest

from baycue.cues.guide_tone import STEADY, GuideVoice
from baycue.glimpse import Glimpse
from baycue.live import live_hold
from baycue.live.live_hold import LiveHold
from baycue.live.practice import LivePractice, live_practice
from baycue.practice.hold import Guidance, Window
from baycue.practice.hold_watch import HoldWatch, hold_watch
from baycue.practice.posture import SHAFT
from baycue.practice.schedule import Answer
from tests.practice_plans import practice_plan

PLAN = practice_plan(
    "  blocks:\n    - drills: [{drill: rehearse and hold, at: P6, hold: 2 s, count: 1}]\n"
    "    - drills: [{drill: full swing, count: 2}]\n"
)
OFF = Guidance(SHAFT, Window(SHAFT, -10, 10), -40.0, 2.5, -30.0, -3.0, False, 0.0, 2.0)
HELD = replace(OFF, value=1.0, off=0.0, windows_off=0.0, inside=True, held_s=2.0, counts=True)


@dataclass
class HeardGuide:
    """Remembers the last voice."""

    voice: GuideVoice | None = None
    voices: list[GuideVoice | None] = field(default_factory=list)

    def guide(self, voice: GuideVoice | None) -> None:
        self.voice = voice
        self.voices.append(voice)


def watch() -> HoldWatch:
    assert PLAN.practice is not None
    return hold_watch(PLAN, PLAN.practice.blocks[0].drills[0])


def test_the_tone_follows_the_golfer_and_ends_with_the_hold() -> None:
    guide = HeardGuide()
    hold = LiveHold(guide)
    assert not hold.take(watch(), OFF, silent=False)
    assert guide.voice is not None
    assert guide.voice.beat_hz > 1
    assert hold.take(watch(), HELD, silent=False)
    assert guide.voice == STEADY
    assert hold.guidance() == HELD
    hold.end()
    assert hold.guidance() is None
    assert guide.voices[-1] is None


def test_while_resting_nothing_sounds_or_counts() -> None:
    guide = HeardGuide()
    assert not LiveHold(guide).take(watch(), HELD, silent=True)
    assert guide.voice is None


def test_a_golfer_not_seen_for_a_while_is_not_guided(monkeypatch: pytest.MonkeyPatch) -> None:
    guide = HeardGuide()
    hold = LiveHold(guide)
    hold.take(watch(), OFF, silent=False)
    hold.take(watch(), None, silent=False)
    assert hold.guidance() == OFF
    monkeypatch.setattr(live_hold, "_UNSEEN_NS", -1)
    assert hold.guidance() is None
    assert guide.voice is None


class TestInASession:
    @staticmethod
    def shown(
        monkeypatch: pytest.MonkeyPatch, guidance: Guidance
    ) -> tuple[LivePractice, HeardGuide, list[Answer | None]]:
        monkeypatch.setattr(HoldWatch, "after", lambda self, glimpse: (self, guidance))
        guide, held = HeardGuide(), list[Answer | None]()
        practice = live_practice(PLAN, guide, held.append)
        assert practice is not None
        practice.look(Glimpse.__new__(Glimpse))
        return practice, guide, held

    def test_a_hold_that_counts_leads_on(self, monkeypatch: pytest.MonkeyPatch) -> None:
        practice, guide, held = self.shown(monkeypatch, HELD)
        assert held == [None]
        assert guide.voice is None
        assert STEADY in guide.voices
        assert practice.view().drill == "full swing"

    def test_one_that_does_not_count_yet_is_shown(self, monkeypatch: pytest.MonkeyPatch) -> None:
        practice, guide, held = self.shown(monkeypatch, OFF)
        assert held == []
        assert practice.view().guidance == OFF
        assert guide.voice is not None
        practice.skip(block=True)
        assert guide.voice is None
        assert practice.view().guidance is None
