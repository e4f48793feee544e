"""The sound card's loss and return, with cards that are only pretended, and choosing one."""

import threading
import time
from dataclasses import dataclass, field

import numpy as np
import pytest

from baycue.cues.reconnect import finishes
from baycue.cues.sound_card import SoundCardSpeaker, ToneOnset
from baycue.cues.sound_device import SoundChoice, SoundDevice, find_device
from baycue.cues.sound_stream import BlockTime, Fill
from baycue.cues.tones import RATE_HZ, Samples, tone_for
from baycue.errors import OutputError
from baycue.verdict.verdict import Outcome
from tests.sound_server import wait_until

PASS = tone_for(Outcome.PASS)


@dataclass
class PretendedCard:
    """A stream that asks for a block when told to, and may not come back from ``close``."""

    fill: Fill
    hangs: bool = False
    device_name: str = "pretended"
    rate_hz: float = RATE_HZ
    latency_s: float = 0.01
    closed: bool = False
    heard: list[Samples] = field(default_factory=list)

    def turn(self, samples: int = 480, at_s: float = 100.0) -> Samples:
        block = np.full((samples, 1), 9, dtype=np.float32)
        self.fill(block, BlockTime(at_s, at_s + self.latency_s))
        self.heard.append(block[:, 0])
        return block[:, 0]

    def close(self) -> None:
        self.closed = True
        while self.hangs:
            time.sleep(0.05)


@dataclass
class Shop:
    """Opens pretended cards, or has none."""

    empty: bool = False
    hangs: bool = False
    cards: list[PretendedCard] = field(default_factory=list)
    asked: list[int | str | None] = field(default_factory=list)

    def open(self, device: int | str | None, fill: Fill) -> PretendedCard:
        self.asked.append(device)
        if self.empty:
            raise OutputError("no sound: nothing there")
        self.cards.append(PretendedCard(fill, self.hangs))
        return self.cards[-1]


def beating(card: PretendedCard, over: threading.Event) -> None:
    while not over.is_set():
        card.turn(480, time.monotonic())
        time.sleep(0.01)


def lose(speaker: SoundCardSpeaker) -> None:
    """As if the card had not asked for samples for long."""
    speaker._opened_ns = speaker._beat_ns = -(10**12)


class TestLoss:
    def test_a_dead_card_that_never_closes_blocks_nothing_and_another_is_opened(
        self, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        left: list[bool] = []
        monkeypatch.setattr(
            "baycue.cues.sound_card.leave_without_cleaning_up", lambda: left.append(True)
        )
        shop = Shop(hangs=True)
        speaker = SoundCardSpeaker(open_output=shop.open)
        lose(speaker)
        before = time.monotonic()
        with pytest.raises(OutputError, match="stopped answering; trying again"):
            speaker.play(PASS)
        assert time.monotonic() - before < 1
        wait_until(lambda: len(shop.cards) == 2)
        wait_until(lambda: speaker.is_alive)
        assert shop.cards[0].closed
        assert left == [True]
        speaker.play(PASS)
        assert np.abs(shop.cards[1].turn()).max() > 0
        assert speaker.reconnections == 1
        for card in shop.cards:
            card.hangs = False
        speaker.close()

    def test_a_shop_that_is_empty_for_a_while(self, monkeypatch: pytest.MonkeyPatch) -> None:
        anew: list[bool] = []
        monkeypatch.setattr("baycue.cues.sound_card.list_devices_anew", lambda: anew.append(True))
        shop = Shop()
        speaker = SoundCardSpeaker(open_output=shop.open)
        shop.empty = True
        lose(speaker)
        wait_until(lambda: len(shop.asked) > 2)
        with pytest.raises(OutputError, match="nothing there; trying again"):
            speaker.play(PASS)
        assert "trying again" in speaker.describe()
        assert anew
        shop.empty = False
        wait_until(lambda: speaker.is_alive)
        speaker.play(PASS)
        speaker.close()

    def test_tries_are_paced(self) -> None:
        shop = Shop(empty=True)
        with pytest.raises(OutputError, match="nothing there"):
            SoundCardSpeaker(open_output=shop.open)
        assert len(shop.asked) == 1

    def test_a_patient_speaker_starts_without_a_card(self, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr("baycue.cues.sound_card.list_devices_anew", lambda: True)
        shop = Shop(empty=True)
        speaker = SoundCardSpeaker(SoundChoice("bay"), shop.open, patient=True)
        assert speaker.latency_s is None
        shop.empty = False
        wait_until(lambda: speaker.is_alive)
        assert set(shop.asked) == {"bay"}
        speaker.close()

    def test_closing_gives_up_on_what_does_not_end(self) -> None:
        never = threading.Event()
        assert not finishes(lambda: print(never.wait()), within_s=0.05)
        never.set()
        assert finishes(lambda: None)


class TestOnset:
    def test_it_is_told_with_the_drivers_estimate(self) -> None:
        shop = Shop()
        speaker = SoundCardSpeaker(open_output=shop.open)
        card = shop.cards[0]
        over = threading.Event()
        beat = threading.Thread(target=beating, args=(card, over), daemon=True)
        beat.start()
        assert speaker.last_onset is None
        asked_ns = time.monotonic_ns()
        speaker.play(PASS)
        wait_until(lambda: speaker.last_onset is not None)
        onset = speaker.last_onset
        over.set()
        beat.join()
        assert onset is not None
        assert asked_ns <= onset.asked_ns <= onset.submitted_ns <= time.monotonic_ns()
        assert 0.01 <= onset.estimated_output_s <= 0.02
        assert speaker.heartbeat_ns >= onset.submitted_ns
        speaker.close()

    def test_the_two_latencies_are_kept_apart(self) -> None:
        onset = ToneOnset(1_000_000, 4_000_000, 24_000_000)
        assert onset.software_s == pytest.approx(0.003)
        assert onset.estimated_output_s == pytest.approx(0.020)

    def test_the_volume_is_a_factor(self) -> None:
        loudest = []
        for volume in (1.0, 0.25, 0.0):
            shop = Shop()
            speaker = SoundCardSpeaker(SoundChoice(volume=volume), shop.open)
            speaker.play(PASS)
            loudest.append(float(np.abs(shop.cards[0].turn(len(PASS.samples))).max()))
            speaker.close()
        assert loudest == pytest.approx([loudest[0], loudest[0] / 4, 0.0])

    def test_a_volume_out_of_range_is_refused(self) -> None:
        with pytest.raises(OutputError, match=r"volume 1\.5: give a number from 0 to 1"):
            SoundChoice(volume=1.5)


DEVICES = [
    SoundDevice(0, "Built-in Microphone", 0),
    SoundDevice(1, "Built-in Speakers", 2),
    SoundDevice(2, "USB Speakers", 2),
    SoundDevice(3, "USB", 2),
]


class TestChoosing:
    @pytest.mark.parametrize(
        ("wanted", "index"),
        [("2", 2), (2, 2), ("usb speak", 2), ("USB", 3), ("built-in", 1)],
    )
    def test_by_index_name_or_a_part_of_it(self, wanted: int | str, index: int) -> None:
        found = find_device(DEVICES, wanted, "output")
        assert found is not None
        assert found.index == index

    def test_without_a_wish_the_system_chooses(self) -> None:
        assert find_device(DEVICES, None, "output") is None

    def test_an_unknown_one_is_answered_with_the_nearest_and_all(self) -> None:
        with pytest.raises(OutputError) as error:
            find_device(DEVICES, "USB Speekers", "output")
        assert 'no output device "USB Speekers"; did you mean "USB Speakers"?' in str(error.value)
        assert "1 Built-in Speakers, 2 USB Speakers, 3 USB" in str(error.value)

    def test_one_without_outputs_is_none(self) -> None:
        with pytest.raises(OutputError, match='no output device "0"'):
            find_device(DEVICES, 0, "output")
