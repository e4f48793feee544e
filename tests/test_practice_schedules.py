"""Schedules of feedback, played through and counted."""

from collections.abc import Sequence

import numpy as np
import pytest

from baycue.measures.measurement import Unit
from baycue.practice.schedule import Answer, Band, Schedule, Settings, Telling
from baycue.practice.schedules import schedule_kinds, schedule_named
from baycue.practice.schedules.faded import drawn
from baycue.verdict.verdict import Outcome, SwingVerdict
from tests.told_verdicts import told_swing, told_target

PASS, FAIL, TOO_CLOSE = Outcome.PASS, Outcome.FAIL, Outcome.TOO_CLOSE


def started(word: str, settings: Settings) -> Schedule:
    kind = schedule_named(word)
    assert kind is not None
    return kind.start(settings)


def played(schedule: Schedule, verdicts: Sequence[SwingVerdict]) -> tuple[list[Answer], Schedule]:
    answers = []
    for verdict in verdicts:
        schedule, answer = schedule.after(verdict)
        answers.append(answer)
    return answers, schedule


def tellings(word: str, verdicts: Sequence[SwingVerdict], settings: Settings) -> list[Telling]:
    return [answer.telling for answer in played(started(word, settings), verdicts)[0]]


def session(count: int, seed: int = 5) -> list[SwingVerdict]:
    """A session of random outcomes."""
    rng = np.random.default_rng(seed)
    return [told_swing(k + 1, list(Outcome)[int(rng.integers(3))]) for k in range(count)]


def test_every_word_has_its_kind() -> None:
    words = [kind.word for kind in schedule_kinds()]
    assert words == sorted(
        ["every swing", "only outside", "only inside", "faded", "on request", "summary", "silent"]
    )
    assert schedule_named("now and then") is None


@pytest.mark.parametrize(
    ("word", "telling"),
    [
        ("every swing", Telling.TELL),
        ("on request", Telling.ASK),
        ("silent", Telling.WITHHOLD),
    ],
)
def test_some_treat_all_swings_alike(word: str, telling: Telling) -> None:
    assert tellings(word, session(40), Settings(40)) == [telling] * 40


class TestBand:
    @pytest.mark.parametrize(("word", "told"), [("only outside", FAIL), ("only inside", PASS)])
    def test_only_one_side_is_told(self, word: str, told: Outcome) -> None:
        swings = session(60)
        heard = tellings(word, swings, Settings(60))
        for verdict, telling in zip(swings, heard, strict=True):
            side = FAIL if verdict.outcome is FAIL else PASS  # too close to call is inside
            assert (telling is Telling.TELL) == (side is told)

    def test_together_they_tell_of_every_swing_once(self) -> None:
        swings = session(60)
        both = (tellings(w, swings, Settings(60)) for w in ("only outside", "only inside"))
        assert all((a is Telling.TELL) != (b is Telling.TELL) for a, b in zip(*both, strict=True))

    @pytest.mark.parametrize(("margin", "told"), [(-0.021, True), (-0.019, False)])
    def test_a_miss_within_the_band_is_inside(self, margin: float, told: bool) -> None:
        settings = Settings(1, band=Band(0.02, Unit.METRE))
        (heard,) = tellings("only outside", [told_swing(1, FAIL, margin)], settings)
        assert (heard is Telling.TELL) == told

    def test_a_band_in_another_unit_does_not_count(self) -> None:
        settings = Settings(1, band=Band(5.0, Unit.DEGREE))
        assert tellings("only outside", [told_swing(1, FAIL, -0.001)], settings) == [Telling.TELL]

    @pytest.mark.parametrize("word", ["only outside", "only inside"])
    def test_what_could_not_be_measured_is_no_silent_praise(self, word: str) -> None:
        unmeasured = SwingVerdict(1, TOO_CLOSE, (told_target(TOO_CLOSE, None),), "not seen")
        assert tellings(word, [unmeasured], Settings(1)) == [Telling.TELL]

    def test_a_target_that_is_only_watched_puts_nothing_outside(self) -> None:
        watched = told_target(FAIL, -0.3, watch_only=True)
        verdict = SwingVerdict(1, PASS, (told_target(PASS, 0.01), watched), "all met")
        assert tellings("only outside", [verdict], Settings(1)) == [Telling.WITHHOLD]


class TestFaded:
    @pytest.mark.parametrize("seed", range(40))
    @pytest.mark.parametrize(
        ("swings", "start", "end", "count"),
        [(50, 1.0, 0.0, 25), (20, 1.0, 0.5, 15), (30, 0.8, 0.2, 15), (7, 0.5, 0.5, 3)],
    )
    def test_the_count_is_exact_whatever_the_seed(
        self, swings: int, start: float, end: float, count: int, seed: int
    ) -> None:
        settings = Settings(swings, (seed,), start, end)
        heard = tellings("faded", session(swings), settings)
        assert heard.count(Telling.TELL) == count
        assert heard.count(Telling.WITHHOLD) == swings - count

    def test_the_same_seed_draws_the_same_swings(self) -> None:
        settings = Settings(40, (3, 1), 1.0, 0.25)
        assert drawn(settings) == drawn(settings)
        assert drawn(settings) != drawn(Settings(40, (4, 1), 1.0, 0.25))

    def test_each_swings_chance_is_its_share(self) -> None:
        # 4000 draws: a share of 0.5 is told to within 4 of its own sigmas, 0.0079 each.
        many = np.array([drawn(Settings(20, (seed,), 0.9, 0.1)) for seed in range(4000)])
        assert np.abs(many.mean(axis=0) - np.linspace(0.9, 0.1, 20)).max() < 4 * 0.0079

    def test_all_or_none_can_be_asked_for(self) -> None:
        assert drawn(Settings(9, (1,), 1.0, 1.0)) == (True,) * 9
        assert drawn(Settings(9, (1,), 0.0, 0.0)) == (False,) * 9

    def test_beyond_the_block_nothing_is_told(self) -> None:
        assert tellings("faded", session(3), Settings(2, (1,), 1.0, 1.0))[2] is Telling.WITHHOLD


class TestSummary:
    def test_every_n_swings_all_of_them_are_told_together(self) -> None:
        swings = session(13)
        answers, left = played(started("summary", Settings(13, every=5)), swings)
        summed = [k for k, answer in enumerate(answers) if answer.telling is Telling.SUM_UP]
        assert summed == [4, 9]
        assert answers[4].summed == tuple(swings[:5])
        assert answers[9].summed == tuple(swings[5:10])
        assert all(a.telling is Telling.WITHHOLD for k, a in enumerate(answers) if k not in summed)
        assert left.left_over() == tuple(swings[10:])

    @pytest.mark.parametrize(
        "word", ["every swing", "silent", "on request", "faded", "only inside"]
    )
    def test_others_leave_nothing_over(self, word: str) -> None:
        assert played(started(word, Settings(7)), session(7))[1].left_over() == ()
