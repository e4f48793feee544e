"""The rehearsal's own parts, and a few swings measured end to end with a real sound server."""

from pathlib import Path

import numpy as np
import pytest

from baycue.commands.latency import impact_frames
from baycue.cues.tones import RATE_HZ, tone_for
from baycue.errors import RecordingError
from baycue.plan.load import load_plan
from baycue.rehearsal.ear import Arrival, onsets, sample_time_ns
from baycue.rehearsal.endurance import Endurance, Sample, settled
from baycue.rehearsal.latency import end_to_end_ms, impact_sends, spread
from baycue.rehearsal.looped_clip import LoopedClip
from baycue.rehearsal.rehearse import rehearse
from baycue.rehearsal.surroundings import missing
from baycue.synthetic.truth_file import read_truth
from baycue.verdict.verdict import Outcome
from tests.command_line import PLAN, SAMPLE

MS = 1_000_000


class TestEar:
    @pytest.mark.parametrize("outcome", list(Outcome))
    def test_a_tone_is_heard_once_within_a_millisecond_of_its_first_sample(
        self, outcome: Outcome
    ) -> None:
        heard = np.zeros(6 * RATE_HZ, dtype=np.float32)
        tone = tone_for(outcome).samples
        for start_s in (1.0, 4.0):
            first = round(start_s * RATE_HZ)
            heard[first : first + len(tone)] += tone
        found_s = np.array(onsets(heard)) / RATE_HZ
        assert found_s == pytest.approx([1.0, 4.0], abs=1e-3)

    def test_silence_has_no_onset(self) -> None:
        assert onsets(np.zeros(1000, dtype=np.float32)) == []

    def test_a_sample_was_recorded_before_the_block_that_brought_it(self) -> None:
        arrivals = [Arrival(480, 100 * MS), Arrival(960, 115 * MS)]
        assert sample_time_ns(479, arrivals) == 100 * MS
        assert sample_time_ns(480, arrivals) == pytest.approx(115 * MS - 479 / RATE_HZ * 1e9, abs=2)


class TestFigures:
    def test_spread(self) -> None:
        figures = spread([float(k) for k in range(1, 102)])
        assert figures is not None
        assert (figures.count, figures.median, figures.p95, figures.largest) == (101, 51, 96, 101)
        assert spread([]) is None

    def test_impacts_are_found_in_every_round_of_the_clip(self) -> None:
        sent_ns = [k * 10 for k in range(25)]
        assert impact_sends(sent_ns, 10, (3, 7)) == [30, 70, 130, 170, 230]

    def test_the_first_tone_after_an_impact_answers_it(self) -> None:
        impacts, tones = [0, 10_000 * MS, 20_000 * MS], [150 * MS, 900 * MS, 20_300 * MS]
        assert end_to_end_ms(impacts, tones) == [150.0, None, 300.0]

    def test_memory_slope(self) -> None:
        samples = tuple(Sample(float(t), 300 + 0.01 * t, 0) for t in range(600))
        done = Endurance(samples, sent=1, read=1, damaged=0, times_opened=1, swings=0)
        assert len(settled(samples)) == 480
        assert done.growth.per_h == pytest.approx(36.0)

    def test_endurance_counts_what_is_lost(self) -> None:
        samples = tuple(Sample(float(t), 400.0, 30 * t) for t in range(100))
        done = Endurance(samples, sent=6000, read=5990, damaged=0, times_opened=1, swings=20)
        assert (done.lost, done.poses_a_second, done.peak_mb) == (9, 30.0, 400.0)


def test_a_looped_clip_keeps_its_pace_and_tells_what_it_sent() -> None:
    clip = LoopedClip((b"a", b"b", b"c"), (0, 10 * MS, 20 * MS), 30 * MS)
    sent: list[tuple[int, int]] = []
    show = clip.show(lambda number, at_ns: sent.append((number, at_ns)))
    assert [next(show) for _ in range(7)] == [b"a", b"b", b"c", b"a", b"b", b"c", b"a"]
    assert [number for number, _ in sent] == list(range(7))
    early_ns = [at_ns - sent[0][1] - number * 10 * MS for number, at_ns in sent]
    # Never early, but for what the first one itself was late.
    assert min(early_ns) > -10 * MS


def test_the_frame_of_impact_comes_from_the_truth() -> None:
    (frame,) = impact_frames(SAMPLE)
    impact_s = read_truth(SAMPLE.with_suffix(".truth.json")).swings[0].checkpoints_s["impact"]
    assert 0 <= frame / 30 - impact_s < 1 / 30


def test_a_clip_without_truth_is_refused(tmp_path: Path) -> None:
    with pytest.raises(RecordingError, match=r"has no clip\.truth\.json"):
        impact_frames(tmp_path / "clip.mp4")


@pytest.mark.skipif(missing() is not None, reason=str(missing()))
def test_two_swings_end_to_end(tmp_path: Path) -> None:
    """Served over loopback, watched, sounded by PulseAudio, recorded: in that order in time."""
    impacts = impact_frames(SAMPLE)
    done = rehearse(SAMPLE, load_plan(PLAN), impacts, swings=2, heard=True, kept_in=tmp_path)
    if done.fps is None or len(done.told) < 2:
        pytest.skip("this machine is too busy to watch live")
    assert done.output_ms is not None
    assert done.output_ms > 0
    heard = [ms for ms in done.end_to_end_ms if ms is not None]
    software = [told.software_ms for told in done.told if told.software_ms is not None]
    assert len(software) >= 2
    assert len(heard) >= 2
    # An impact is sent before it is stamped, and a tone is heard after it is submitted; the
    # verdict's own impact may lie a frame to either side of the true one.
    assert heard[0] > software[0] - 40
    assert heard[0] < software[0] + 1500
    films = [*tmp_path.rglob("*.mov"), *tmp_path.rglob("*.mp4")]
    assert len({film.stem for film in films}) >= 2
    assert "swings kept in" in done.kept[0]
