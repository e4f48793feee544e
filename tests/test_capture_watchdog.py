"""Alive, silent or frozen; how often to try again; rate and gaps: all from times handed in."""

import numpy as np
import pytest

from baycue.capture.pace import Pace
from baycue.capture.reconnect import wait_before_try_ns
from baycue.capture.watchdog import Patience, Watchdog, fingerprint

S = 1_000_000_000


def watched(stamps_s: list[float], marks: list[int], patience: Patience | None = None) -> Watchdog:
    dog = Watchdog(patience or Patience(), opened_ns=0)
    for stamp_s, mark in zip(stamps_s, marks, strict=True):
        dog = dog.after(round(stamp_s * S), mark)
    return dog


class TestWatchdog:
    def test_before_the_first_picture_it_is_not_alive(self) -> None:
        assert watched([], []).trouble(0) == "no picture yet"

    def test_pictures_that_change_are_alive(self) -> None:
        dog = watched([0.1, 0.2, 5.0], [1, 2, 3])
        assert dog.trouble(5 * S + S // 2) is None

    def test_a_stamp_too_old_is_silence(self) -> None:
        assert watched([1.0], [7]).trouble(4 * S) == "no picture for 3 s"

    def test_equal_pictures_are_a_camera_that_hangs(self) -> None:
        times = [0.1 * k for k in range(1, 32)]
        dog = watched(times, [7] * 31)
        assert dog.is_frozen()
        assert dog.trouble(round(3.1 * S)) == "the same picture for 3 s"

    def test_a_change_ends_the_freeze(self) -> None:
        times = [0.1 * k for k in range(1, 32)]
        assert watched(times, [7] * 30 + [8]).trouble(round(3.1 * S)) is None

    def test_a_file_may_repeat_itself(self) -> None:
        times = [0.1 * k for k in range(1, 32)]
        assert watched(times, [7] * 31, Patience(frozen_ns=None)).trouble(round(3.1 * S)) is None

    def test_opened_anew_the_old_picture_is_no_sign_of_life(self) -> None:
        dog = Watchdog(Patience(), opened_ns=0, fingerprint=7).after(S // 10, 7)
        assert dog.trouble(S // 10) == "still the picture from before it was lost"
        assert dog.after(S // 5, 8).trouble(S // 5) is None

    def test_sensor_noise_changes_the_fingerprint_and_nothing_else_does(self) -> None:
        rng = np.random.default_rng(1)
        still = rng.integers(0, 255, (720, 1280, 3), dtype=np.uint8)
        noisy = np.clip(still + rng.normal(0, 1, still.shape), 0, 255).astype(np.uint8)
        assert fingerprint(still) == fingerprint(still.copy())
        assert fingerprint(still) != fingerprint(noisy)


class TestReconnection:
    def test_at_once_then_slower_and_never_slower_than_five_seconds(self) -> None:
        waits = [wait_before_try_ns(k) / S for k in range(8)]
        assert waits == [0, 0.5, 1, 2, 4, 5, 5, 5]
        assert wait_before_try_ns(10_000) == 5 * S


def paced(stamps_s: list[float]) -> Pace:
    pace = Pace()
    for stamp_s in stamps_s:
        pace = pace.after(round(stamp_s * S))
    return pace


class TestPace:
    @pytest.mark.parametrize("fps", [24, 29.97, 60, 120])
    def test_the_rate_is_that_of_the_stamps(self, fps: float) -> None:
        assert paced([k / fps for k in range(300)]).fps == pytest.approx(fps, rel=1e-6)

    def test_a_few_frames_tell_no_rate(self) -> None:
        assert paced([0, 0.1, 0.2]).fps is None

    @pytest.mark.parametrize("gone", [{50}, {50, 51, 52}, {30, 60, 61, 90}])
    def test_frames_left_out_are_counted(self, gone: set[int]) -> None:
        assert paced([k / 30 for k in range(120) if k not in gone]).missing == len(gone)

    def test_a_frame_that_came_late_is_not_missing(self) -> None:
        stamps = [k / 30 for k in range(120)]
        stamps[60] += 0.95 / 30
        assert paced(stamps).missing == 0

    def test_usual_jitter_is_not_missing(self) -> None:
        rng = np.random.default_rng(3)
        stamps = np.arange(600) / 60 + rng.uniform(0, 0.15 / 60, 600)
        assert paced(stamps.tolist()).missing == 0

    def test_clumps_from_a_network_tell_nothing(self) -> None:
        assert paced([k // 4 * 4 / 60 + k % 4 * 1e-4 for k in range(300)]).missing == 0
