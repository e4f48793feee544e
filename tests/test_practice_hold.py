"""A hold judged while it lasts."""

from collections.abc import Iterable
from dataclasses import replace

import pytest

from baycue.measures.measurement import Unit
from baycue.practice.hold import Guidance, HoldSample, HoldState, LiveMeasure, Reading, Window

ANGLE = LiveMeasure("shaft from level", Unit.DEGREE, "club head up", "club head down")
BUTT = LiveMeasure("butt past buckle", Unit.METRE, "hands toward the target", "hands back")
BOTH = (Window(ANGLE, -10.0, 10.0), Window(BUTT, -0.06, 0.06))
GAP_NS = 40_000_000
S = 1_000_000_000


def sample(frame: int, angle_deg: float, butt_m: float = 0.0, club_seen: bool = True) -> HoldSample:
    readings = Reading(ANGLE, angle_deg, 1.5), Reading(BUTT, butt_m, 0.03)
    return HoldSample(frame * GAP_NS, readings, club_seen)


def told(
    samples: Iterable[HoldSample | None], state: HoldState | None = None
) -> list[Guidance | None]:
    state = state or HoldState(BOTH, 2.0)
    heard = []
    for one in samples:
        state, guidance = state.after(one)
        heard.append(guidance)
    return heard


def last(samples: Iterable[HoldSample | None]) -> Guidance:
    guidance = told(samples)[-1]
    assert guidance is not None
    return guidance


def counted(samples: Iterable[HoldSample | None]) -> list[int]:
    return [k for k, guidance in enumerate(told(samples)) if guidance and guidance.counts]


class TestWhereTheGolferIs:
    @pytest.mark.parametrize(
        ("angle", "off", "windows", "what_to_do"),
        [
            (-45.0, -35.0, -3.5, "club head up"),
            (12.0, 2.0, 0.2, "club head down"),
            (9.9, 0.0, 0.0, "hold it"),
        ],
    )
    def test_how_far_in_the_measures_unit_and_what_to_do(
        self, angle: float, off: float, windows: float, what_to_do: str
    ) -> None:
        guidance = last([sample(k, angle) for k in range(9)])
        assert guidance.off == pytest.approx(off)
        assert guidance.windows_off == pytest.approx(windows)
        assert guidance.told == what_to_do
        assert guidance.inside == (off == 0)

    def test_the_measure_that_is_furthest_off_for_its_window_leads(self) -> None:
        # 25 deg off is one and a half half widths, 24 cm three.
        guidance = last([sample(k, 25.0, 0.24) for k in range(9)])
        assert guidance.measure is BUTT
        assert guidance.off == pytest.approx(0.18)
        assert guidance.told == "hands back"

    def test_all_windows_must_be_met(self) -> None:
        assert not last([sample(k, 0.0, 0.07) for k in range(9)]).inside
        assert last([sample(k, 0.0, 0.05) for k in range(9)]).inside

    def test_one_wild_frame_moves_nothing(self) -> None:
        steady = [sample(k, 3.0) for k in range(20)]
        wild = [*steady[:14], replace(steady[14], readings=sample(14, 150.0).readings)]
        assert last(wild).value == 3.0
        assert last(wild).inside

    def test_nobody_or_a_measure_missing_is_no_guidance(self) -> None:
        assert told([None]) == [None]
        half = HoldSample(0, (Reading(ANGLE, 0.0, 1.0),))
        assert told([half]) == [None]


class TestCounting:
    def test_it_counts_once_when_it_has_lasted(self) -> None:
        samples = [sample(k, 40.0) for k in range(10)] + [sample(k, 0.0) for k in range(10, 120)]
        (at,) = counted(samples)
        # Inside once most of the last 0.3 s are, and two seconds more.
        inside = next(k for k, g in enumerate(told(samples)) if g and g.inside)
        assert 10 < inside <= 15
        assert (at - inside) * GAP_NS == pytest.approx(2 * S, abs=GAP_NS)

    def test_how_long_it_is_held_is_told(self) -> None:
        guidance = last([sample(k, 0.0) for k in range(26)])
        assert guidance.held_s == pytest.approx(1.0)
        assert guidance.wanted_s == 2.0
        assert last([sample(k, 0.0) for k in range(200)]).held_s == 2.0

    def test_a_short_slip_does_not_end_it_and_a_long_one_does(self) -> None:
        def with_slip(frames: int) -> list[HoldSample]:
            return [sample(k, 14.0 if 30 <= k < 30 + frames else 0.0) for k in range(62)]

        assert len(counted(with_slip(4))) == 1
        assert counted(with_slip(20)) == []

    def test_the_next_counts_only_after_the_window_was_left(self) -> None:
        stays = [sample(k, 0.0) for k in range(200)]
        assert len(counted(stays)) == 1
        leaves = [sample(k, 60.0 if 70 <= k < 100 else 0.0) for k in range(200)]
        assert len(counted(leaves)) == 2

    def test_a_twitch_is_no_leaving(self) -> None:
        twitches = [sample(k, 60.0 if 70 <= k < 78 else 0.0) for k in range(120)]
        assert len(counted(twitches)) == 1

    def test_a_gap_in_what_is_seen_begins_anew(self) -> None:
        before = [sample(k, 0.0) for k in range(40)]
        after = [sample(k, 0.0) for k in range(60, 95)]
        assert counted([*before, *after]) == []

    def test_frames_without_a_golfer_are_no_hold_of_their_own(self) -> None:
        samples = [sample(k, 0.0) if k % 2 else None for k in range(60)]
        assert len(counted(samples)) == 1


class TestWithoutTheClub:
    def test_it_is_said_and_counts_nothing(self) -> None:
        unseen = [sample(k, 0.0, club_seen=False) for k in range(100)]
        assert counted(unseen) == []
        assert not last(unseen).club_seen
        assert not last(unseen).inside
        assert last(unseen).told == "about there"
        assert last([sample(k, 30.0, club_seen=False) for k in range(9)]).told == "club head down"

    def test_a_frame_without_it_here_and_there_does_not_matter(self) -> None:
        samples = [sample(k, 0.0 if k % 4 else 70.0, club_seen=k % 4 != 0) for k in range(100)]
        assert len(counted(samples)) == 1
        assert last(samples).club_seen
        assert last(samples).value == 0.0
