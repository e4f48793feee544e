"""A soak: lines through series, the practice shown, what is noted, the page; a short real one."""

import json
import mmap
import os
import sys
import threading
from dataclasses import asdict, replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import statsmodels.api
from rich.console import Console

from baycue.commands.soak import SoakRequest, run_read, run_soak
from baycue.errors import OutputError
from baycue.live.vitals import Vitals, heap_mb, written_vitals
from baycue.rehearsal.practice_show import SWINGS, TEE, Cut, practice_order, swings_sent, to_and_fro
from baycue.rehearsal.process_look import ProcessLook, look_at
from baycue.rehearsal.slope import Slope, in_words, independent, slope
from baycue.rehearsal.soak_counts import counts
from baycue.rehearsal.soak_missed import missed
from baycue.rehearsal.soak_page import soak_page
from baycue.rehearsal.soak_record import (
    FACTS,
    LOOKS,
    VITALS,
    Look,
    SoakFacts,
    SoakRecord,
    line_of,
    newest_vitals,
    read_record,
)
from baycue.rehearsal.soak_series import Series, series, warm_up_s

linux_only = pytest.mark.skipif(sys.platform != "linux", reason="looks at /proc")
S = 1_000_000_000

# NIST Statistical Reference Datasets, linear regression, "Norris" (x, y), with its certified slope
# and the slope's standard deviation; data and values written from memory, and right only together.
NORRIS = (
    *((0.2, 0.1), (337.4, 338.8), (118.2, 118.1), (884.6, 888.0), (10.1, 9.2), (226.5, 228.1)),
    *((666.3, 668.5), (996.3, 998.5), (448.6, 449.1), (777.0, 778.9), (558.2, 559.2), (0.4, 0.3)),
    *((0.6, 0.1), (775.5, 778.1), (666.9, 668.8), (338.0, 339.3), (447.5, 448.9), (11.6, 10.8)),
    *((556.0, 557.7), (228.1, 228.3), (995.8, 998.0), (887.6, 888.8), (120.2, 119.6), (0.3, 0.3)),
    *((0.3, 0.6), (556.8, 557.6), (339.1, 339.3), (887.2, 888.0), (999.0, 998.5), (779.0, 778.9)),
    *((11.1, 10.2), (118.3, 117.6), (229.2, 228.9), (669.1, 668.4), (448.9, 449.2), (0.5, 0.2)),
)
NORRIS_SLOPE, NORRIS_SLOPE_SD = 1.00211681802045, 0.429796848199937e-3


class TestSlope:
    def test_certified_value(self) -> None:
        x, y = zip(*NORRIS, strict=True)
        assert slope([3600 * v for v in x], y).per_h == pytest.approx(NORRIS_SLOPE, rel=1e-12)

    def test_the_certified_data_are_remembered_rightly(self) -> None:
        x, y = zip(*NORRIS, strict=True)
        fit = statsmodels.api.OLS(np.array(y), statsmodels.api.add_constant(np.array(x))).fit()
        assert fit.bse[1] == pytest.approx(NORRIS_SLOPE_SD, rel=1e-9)

    def test_of_independent_values_the_interval_is_the_textbooks(self) -> None:
        """Neighbours that differ more than by chance gain nothing; then it is plain OLS."""
        at_h, rng = np.arange(60) / 60, np.random.default_rng(4)
        values = 3 + 2 * at_h + rng.normal(0, 0.1, 60) * np.where(np.arange(60) % 2, 1, -1)
        values += np.where(np.arange(60) % 2, 0.2, -0.2)
        fit = statsmodels.api.OLS(values, statsmodels.api.add_constant(at_h)).fit()
        found = slope(list(3600 * at_h), list(values))
        assert (found.low, found.high) == pytest.approx(tuple(fit.conf_int()[1]), rel=1e-9)

    def test_a_wandering_series_without_slope_is_within_its_interval(self) -> None:
        """Of 200 with a correlation of 0.8 from one to the next; a plain interval misses half."""
        rng, held, plain_held = np.random.default_rng(1), 0, 0
        at_s = [float(t) for t in range(200)]
        for _ in range(200):
            values = wandering(rng, 200, 0.8)
            found = slope(at_s, values)
            held += found.low <= 0 <= found.high
            fit = statsmodels.api.OLS(values, statsmodels.api.add_constant(np.array(at_s))).fit()
            low, high = fit.conf_int()[1]
            plain_held += low <= 0 <= high
        assert held / 200 > 0.88
        assert plain_held / 200 < 0.6

    def test_values_alike_count_less(self) -> None:
        """Santer and others 2000: n (1 - r) / (1 + r)."""
        rest = np.array([1.0, 1.0, -1.0, -1.0] * 100)
        alike = float(rest[1:] @ rest[:-1] / (rest @ rest))
        assert independent(rest) == pytest.approx(400 * (1 - alike) / (1 + alike))
        assert independent(np.array([1.0, -1.0] * 50)) == 100

    def test_what_never_changes_has_no_slope(self) -> None:
        assert slope([0.0, 5.0, 10.0, 15.0], [7.0] * 4) == Slope(0.0, 0.0, 0.0)

    def test_too_few_values(self) -> None:
        with pytest.raises(ValueError, match="no line through 2"):
            slope([0.0, 1.0], [1.0, 2.0])
        # In a slow wave each value is so like its neighbour that sixty are worth fewer than two.
        wave = np.sin(np.arange(60) * 4 * np.pi / 60)
        assert slope(list(np.arange(60.0)), list(wave)).high == np.inf


@pytest.mark.parametrize(
    ("found", "words"),
    [
        (Slope(0.5, -1.0, 2.0), "flat"),
        (Slope(3.0, 2.5, 3.5), "flat"),
        (Slope(79.0, 60.0, 98.0), "rising by 79 MB an hour, give or take 19"),
        (Slope(-30.0, -40.0, -20.0), "falling by 30 MB an hour, give or take 10"),
        (Slope(2.0, -20.0, 24.0), "not known: from -20 to +24 MB an hour"),
        (Slope(2.0, -np.inf, np.inf), "not known: too few values"),
    ],
)
def test_flat_is_only_said_where_all_of_the_interval_is_no_matter(found: Slope, words: str) -> None:
    assert in_words(found, 10.0, "MB") == words


FRAMES = {TEE: 270, SWINGS[0]: 105, SWINGS[1]: 105}


class TestPractice:
    def test_swings_come_every_20_to_30_s_and_in_turn(self) -> None:
        order = practice_order(FRAMES)
        impacts = [k for k, cut in enumerate((*order, *order)) if cut in {*impact_cuts()}]
        assert {20 * 30 <= b - a <= 30 * 30 for a, b in pairwise(impacts)} == {True}
        clips = [order[k].clip for k in impacts[:6]]
        assert clips == [*SWINGS] * 3

    def test_a_swing_is_whole_and_is_entered_and_left_without_a_jump(self) -> None:
        order = practice_order(FRAMES)
        for start in (k for k, cut in enumerate(order) if cut.frame == 0 and cut.clip in SWINGS):
            swing = order[start : start + 105]
            if [cut.frame for cut in swing] != list(range(105)):
                continue  # standing to and fro passes frame 0 too
            assert order[start - 1].frame <= 1
            assert order[start + 105].frame >= 103

    def test_to_and_fro(self) -> None:
        assert to_and_fro([0, 1, 2, 3], 9) == [0, 1, 2, 3, 2, 1, 0, 1, 2]

    def test_swings_sent_are_counted_round_after_round(self) -> None:
        order = practice_order(FRAMES)
        first = order.index(Cut(SWINGS[0], 59))
        impacts = dict.fromkeys(SWINGS, 59)
        counted = [swings_sent(order, impacts, n) for n in (0, first, first + 1, len(order))]
        assert counted == [0, 0, 1, 6]
        assert swings_sent(order, impacts, 2 * len(order) + first + 1) == 13


def impact_cuts() -> list[Cut]:
    return [Cut(clip, 59) for clip in SWINGS]


def wandering(rng: np.random.Generator, count: int, alike: float) -> list[float]:
    values = [float(rng.normal())]
    for step in rng.normal(0, np.sqrt(1 - alike**2), count - 1):
        values.append(alike * values[-1] + float(step))
    return values


FACTS_MADE = SoakFacts("baycue soak", "2026-11-26T04:00:00+00:00", "2 cores", 0, 10.0, 1.0, None)


def look(at_s: int, resident_mb: float) -> Look:
    live = ProcessLook(resident_mb, resident_mb - 100, 20, 30, 0.9 * at_s)
    scoring = ProcessLook(200.0, 100.0, 5, 8, 0.1 * at_s)
    return Look(at_s * S, live, scoring, None, 30 * at_s, at_s // 25, 1.5)


def vitals(at_s: int, answers_ms: tuple[float | None, ...] = ()) -> Vitals:
    return Vitals(
        at_s * S, (11, 12), 30 * at_s - 1, 0, 1, 25 * at_s, answers_ms, 150.0, 30.0, 900_000
    )


def invented(mb_an_hour: float) -> SoakRecord:
    """Ten minutes with a rise of the live process's memory; the numbers are invented."""
    looks = tuple(look(t, 600 + mb_an_hour * t / 3600) for t in range(0, 601, 5))
    told = tuple(
        vitals(t + 1, (100.0 + t % 50,) if t and t % 25 == 0 else ()) for t in range(0, 601, 5)
    )
    return SoakRecord(FACTS_MADE, looks, told)


class TestRecord:
    def test_what_is_written_is_read(self, tmp_path: Path) -> None:
        record = invented(50.0)
        write(tmp_path, record)
        assert read_record(tmp_path) == record
        assert newest_vitals(tmp_path) == record.vitals[-1]

    def test_a_kill_in_the_middle_of_a_line_costs_that_line(self, tmp_path: Path) -> None:
        record = invented(50.0)
        write(tmp_path, record)
        for name in (LOOKS, VITALS):
            text = (tmp_path / name).read_text()
            (tmp_path / name).write_text(text[:-20])
        read = read_record(tmp_path)
        assert (read.looks, read.vitals) == (record.looks[:-1], record.vitals[:-1])

    def test_where_nothing_was_begun(self, tmp_path: Path) -> None:
        with pytest.raises(OutputError, match=r"holds no soak\.json"):
            read_record(tmp_path)

    def test_where_a_soak_was_begun_none_is_begun_again(self, tmp_path: Path) -> None:
        write(tmp_path, invented(0.0))
        with pytest.raises(OutputError, match="a soak was begun there already"):
            run_soak(SoakRequest(0.1, tmp_path, heard=False), Console(quiet=True))
        assert read_record(tmp_path) == invented(0.0)


def write(folder: Path, record: SoakRecord) -> None:
    (folder / FACTS).write_text(json.dumps(asdict(record.facts)))
    (folder / LOOKS).write_text("".join(line_of(each) for each in record.looks))
    lines = (f"{json.dumps(asdict(each))}\n" for each in record.vitals)
    (folder / VITALS).write_text("".join(lines))


class TestTelling:
    def test_a_rise_is_found_and_the_rest_is_flat(self) -> None:
        told = {each.name: each for each in settled(invented(79.0))}
        memory = told.pop("memory, both processes")
        assert memory.slope is not None
        assert memory.slope.per_h == pytest.approx(79.0)
        assert memory.verdict.startswith("rising by 79 MB an hour")
        assert told.pop("memory, live process").verdict == memory.verdict
        latency = told.pop("software latency, each swing")
        assert set(latency.values) == {100.0, 125.0}
        assert {each.verdict for each in told.values()} == {"flat"}

    def test_poses_and_processor_are_rates(self) -> None:
        told = {each.name: each.values for each in series(invented(0.0))}
        assert set(told["poses a second"]) == {25.0}
        assert told["processor, both"] == pytest.approx([1.0] * 120)

    def test_a_process_that_was_not_seen_is_left_out(self) -> None:
        record = invented(0.0)
        unseen = replace(record.looks[0], scoring=None)
        looked = replace(record, looks=(unseen, *record.looks[1:]))
        told = {each.name: len(each.values) for each in series(looked)}
        assert (told["memory, both processes"], told["memory, live process"]) == (120, 121)

    def test_time_to_settle(self) -> None:
        assert (warm_up_s(600.0), warm_up_s(7200.0)) == (120.0, 900.0)

    def test_counts(self) -> None:
        told = dict(counts(invented(0.0)))
        assert told["frames shown"] == "18000"
        assert told["frames lost before the ring"] == "0"
        assert (told["swings shown"], told["swings answered"]) == ("24", "24")
        assert told["memory of both processes, most"] == "800 MB"

    def test_lost_frames_are_counted(self) -> None:
        record = invented(0.0)
        fewer = replace(record.vitals[-1], frames=record.vitals[-1].frames - 40)
        told = dict(counts(replace(record, vitals=(*record.vitals[:-1], fewer))))
        # 30 of the 40 came after the last look, and one may be under way.
        assert told["frames lost before the ring"] == "10"

    def test_a_swing_that_was_not_answered_is_named_with_its_time(self) -> None:
        record = invented(0.0)
        assert missed(record) == ()
        silent = [replace(v, answers_ms=()) if v.at_ns == 251 * S else v for v in record.vitals]
        (found,) = missed(replace(record, vitals=tuple(silent)))
        assert (found.number, found.from_s, found.to_s) == (10, 245.0, 250.0)
        assert found.poses_per_s == pytest.approx(25.0)
        assert "4:05 and 4:10" in soak_page(replace(record, vitals=tuple(silent)))

    def test_one_that_cannot_be_judged_is_answered_and_the_newest_has_time(self) -> None:
        record = invented(0.0)
        unjudged = [replace(v, answers_ms=tuple(None for _ in v.answers_ms)) for v in record.vitals]
        assert missed(replace(record, vitals=tuple(unjudged))) == ()
        cut_off = tuple(v for v in record.vitals if v.at_ns <= 252 * S)
        silent = (*cut_off[:-1], replace(cut_off[-1], answers_ms=()))
        assert missed(replace(record, vitals=silent)) == ()

    def test_the_page_needs_nothing_beside_it(self) -> None:
        page = soak_page(invented(79.0))
        assert page.count("data:image/png;base64,") == 11
        assert "rising by 79 MB an hour" in page
        assert "http" not in page.replace("https", "http")
        assert "<script" not in page


def settled(record: SoakRecord) -> list[Series]:
    return [each.since(warm_up_s(record.lasted_s)) for each in series(record)]


@linux_only
class TestLooks:
    def test_this_process_holds_what_it_says(self, tmp_path: Path) -> None:
        before = look_at(os.getpid())
        assert before is not None
        # Straight from the system: the C library might still hold memory that it got back.
        held = mmap.mmap(-1, 40 << 20, flags=mmap.MAP_PRIVATE | mmap.MAP_ANONYMOUS)
        done = threading.Event()
        for _ in range(40):
            held.write(bytes(1 << 20))
        thread = threading.Thread(target=done.wait)
        thread.start()
        with (tmp_path / "open").open("w"):
            after = look_at(os.getpid())
        done.set()
        thread.join()
        assert after is not None
        assert after.own_mb - before.own_mb == pytest.approx(40, abs=5)
        held.close()
        assert after.own_mb < after.resident_mb
        assert (after.threads, after.handles) == (before.threads + 1, before.handles + 1)

    def test_a_process_that_is_gone(self, tmp_path: Path) -> None:
        assert look_at(1, proc=tmp_path) is None

    def test_the_heap_in_use_grows_with_what_is_held(self) -> None:
        used_mb, _ = heap_mb()
        if used_mb is None:
            pytest.skip("the C library does not tell")
        held = np.ones(4 << 20)
        more_mb, _ = heap_mb()
        assert more_mb is not None
        assert more_mb - used_mb == pytest.approx(held.nbytes / 1e6, abs=2)


class TestVitals:
    def test_a_line_at_once_and_one_at_the_end(self, tmp_path: Path) -> None:
        file, looked = tmp_path / VITALS, threading.Event()

        def looks() -> Vitals:
            looked.set()
            return vitals(5)

        with written_vitals(file, looks):
            looked.wait()
        assert len(file.read_text().splitlines()) == 2
        assert newest_vitals(tmp_path) == vitals(5)

    def test_a_file_that_is_there_is_left_alone(self, tmp_path: Path) -> None:
        file = tmp_path / VITALS
        file.write_text("mine")
        with pytest.raises(OutputError, match="--vitals"), written_vitals(file, lambda: vitals(1)):
            pass
        assert file.read_text() == "mine"

    def test_none_asked_for(self) -> None:
        with written_vitals(None, lambda: vitals(1)):
            pass


@linux_only
def test_a_short_soak_of_the_real_program(tmp_path: Path) -> None:
    """Six seconds, silent and dark: long enough to be watched, noted and told."""
    folder = tmp_path / "soak"
    record = run_soak(SoakRequest(0.1, folder, heard=False), Console(quiet=True))
    assert record.looks
    assert record.looks[-1].live is not None
    assert record.looks[-1].scoring is not None
    assert record.looks[-1].sent > 0
    assert record.vitals[-1].times_opened == 1
    assert record.vitals[-1].frames > 0
    assert "swing" in (folder / "live.log").read_text()
    assert "<h1>" in (folder / "soak.html").read_text()
    assert run_read(folder, Console(quiet=True)) == record
