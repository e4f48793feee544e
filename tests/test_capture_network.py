"""A network camera over loopback: whole, damaged, cut off, silent, hanging, gone and back."""

import base64
import io
import threading
import time
from collections.abc import Callable, Iterable, Iterator
from itertools import count, islice

import cv2
import numpy as np
import pytest

from baycue.capture.camera import CameraStatus, LiveCamera
from baycue.capture.mjpeg import JpegCutter
from baycue.capture.network import MjpegFeed, without_password
from baycue.capture.opening import live_source, open_address
from baycue.capture.settings import CameraSettings
from baycue.capture.shot import Shot
from baycue.capture.watchdog import Patience
from baycue.errors import CameraError
from baycue.live.darkroom import Darkroom
from baycue.rehearsal.jpeg_server import JpegServer
from tests.conftest import grey_with_number, number_in

BRIEF = Patience(silent_ns=400_000_000, frozen_ns=400_000_000)


def jpeg(number: int) -> bytes:
    good, packed = cv2.imencode(".jpg", grey_with_number(number, 64, 48))
    assert good
    return packed.tobytes()


def paced(pictures: Iterable[bytes], wait_s: float = 0.01) -> Iterator[bytes]:
    for picture in pictures:
        time.sleep(wait_s)
        yield picture


def numbered(start: int = 0) -> Iterator[bytes]:
    return paced(jpeg(k) for k in count(start))


def wait_until(ready: Callable[[], bool]) -> None:
    deadline = time.monotonic() + 30
    while not ready():
        assert time.monotonic() < deadline, "waited in vain"
        time.sleep(0.01)


def all_shots(camera: LiveCamera) -> tuple[Shot, ...]:
    return camera.ring.between(0, 1 << 62)


def online(camera: LiveCamera) -> bool:
    return camera.status().online


class TestCutting:
    @pytest.mark.parametrize("with_length", [True, False])
    def test_every_picture_comes_whole_and_in_order(self, with_length: bool) -> None:
        with JpegServer(lambda: paced(jpeg(k) for k in range(20)), with_length) as server:
            feed = MjpegFeed(server.url)
            got = [feed.read() for _ in range(20)]
            feed.close()
        assert got == [jpeg(k) for k in range(20)]

    def test_a_thumbnail_inside_a_picture_does_not_end_it(self) -> None:
        whole = jpeg(3)
        thumbnail = b"\xff\xe1\x00\x0cxx" + b"\xff\xd8zz\xff\xd9" + b"yy"
        picture = whole[:2] + thumbnail + whole[2:]
        stream = b"--b\r\nContent-Type: image/jpeg\r\n\r\n" + picture + b"\r\n--b\r\nA: b\r\n\r\n"
        cutter = JpegCutter(io.BytesIO(stream + jpeg(4)))
        assert cutter.next_picture() == picture
        assert cutter.next_picture() == jpeg(4)

    @pytest.mark.parametrize(
        ("stream", "fault"),
        [
            (b"", "ended the stream"),
            (b"--b\r\nContent-Length: 400\r\n\r\n\xff\xd8short", "cut off"),
            (b"--b\r\nContent-Length: -4\r\n\r\n", "states a picture of"),
            (b"--b\r\nContent-Length: 99999999999\r\n\r\n", "states a picture of"),
            (b"\r\n" * 100, "holds no pictures"),
            (b"--b\r\nA: b\r\n\r\n" + b"x" * 500, "ended the stream"),
        ],
    )
    def test_what_is_no_stream_is_told(self, stream: bytes, fault: str) -> None:
        with pytest.raises(CameraError, match=fault):
            JpegCutter(io.BytesIO(stream)).next_picture()

    @pytest.mark.parametrize("seed", range(40))
    def test_garbage_ends_in_a_picture_or_a_camera_error(self, seed: int) -> None:
        rng = np.random.default_rng(seed)
        stream = b"--b\r\nA: b\r\n\r\n" + jpeg(1) + b"\r\n--b\r\nA: b\r\n\r\n" + jpeg(2)
        broken = bytearray(stream)
        for place in rng.integers(0, len(broken), 40):
            broken[place] = rng.integers(0, 256)
        cutter = JpegCutter(io.BytesIO(bytes(broken)))
        pictures = iter(cutter.next_picture, None)
        with pytest.raises(CameraError):
            list(islice(pictures, 50))


class TestCamera:
    def test_frames_come_stamped_right_after_they_were_sent(self) -> None:
        sent_ns: list[int] = []

        def show() -> Iterator[bytes]:
            for picture in numbered():
                sent_ns.append(time.monotonic_ns())
                yield picture

        with JpegServer(show) as server:
            camera = LiveCamera(lambda: open_address(server.url))
            wait_until(lambda: camera.status().frames >= 60)
            camera.close()
        shots = all_shots(camera)
        stamps = [shot.stamp_ns for shot in shots]
        assert stamps == sorted(set(stamps))
        assert [number_in(s.developed().picture_bgr) for s in shots] == list(range(len(shots)))
        waits_ms = [(s.stamp_ns - sent_ns[s.index]) / 1e6 for s in shots]
        assert min(waits_ms) > 0
        # The median, for this machine may be busy; a reader that lags by a picture shows 10.
        assert np.median(waits_ms) < 8

    def test_a_slow_reader_holds_nothing_up_and_damaged_pictures_are_counted(self) -> None:
        def show() -> Iterator[bytes]:
            for k, picture in enumerate(numbered()):
                yield b"no picture at all" if k % 10 == 3 else picture

        with JpegServer(show) as server:
            camera = LiveCamera(lambda: open_address(server.url))
            darkroom = Darkroom(camera.ring)
            told: list[int] = []
            darkroom.on_still = lambda still: told.append(still.index)
            wait_until(lambda: camera.status().frames >= 100)
            newest = darkroom.newest.take(1.0)
            camera.close()
            darkroom.close()
        assert newest is not None
        assert newest.index >= 90
        assert darkroom.damaged == pytest.approx(camera.status().frames / 10, abs=2)
        indices = [still.index for still in darkroom.stills.between(0, 1 << 62)]
        assert not [k for k in indices if k % 10 == 3]
        assert told == indices[-len(told) :]
        assert len(told) > 80

    def test_a_stream_cut_in_mid_picture_is_opened_again(self) -> None:
        shows = iter([[jpeg(1), jpeg(2)]])

        def show() -> Iterator[bytes]:
            return paced(next(shows, [jpeg(k) for k in range(5, 65)]), 0.03)

        with JpegServer(show) as server:
            camera = LiveCamera(lambda: open_address(server.url))
            wait_until(lambda: camera.status().times_opened >= 2 and online(camera))
            camera.close()
        stamps = [shot.stamp_ns for shot in all_shots(camera)]
        assert stamps == sorted(set(stamps))

    def test_a_stalled_stream_goes_offline_and_comes_back(self) -> None:
        go_on = threading.Event()

        def show() -> Iterator[bytes]:
            for k, picture in enumerate(numbered()):
                if k == 20 and not go_on.is_set():
                    go_on.wait(30)
                yield picture

        with JpegServer(show) as server:
            camera = LiveCamera(lambda: open_address(server.url), BRIEF)
            wait_until(lambda: online(camera))
            wait_until(lambda: not online(camera))
            assert "no picture for" in camera.status().trouble
            assert camera.status().fps is None
            go_on.set()
            wait_until(lambda: online(camera))
            camera.close()

    def test_one_and_the_same_picture_is_a_camera_that_hangs(self) -> None:
        alive = threading.Event()

        def show() -> Iterator[bytes]:
            for k in count():
                time.sleep(0.02)
                yield jpeg(k if alive.is_set() else 7)

        with JpegServer(show) as server:
            camera = LiveCamera(lambda: open_address(server.url), BRIEF)
            wait_until(lambda: "same picture" in camera.status().trouble)
            wait_until(lambda: camera.status().times_opened >= 2)
            assert not online(camera)
            alive.set()
            wait_until(lambda: online(camera))
            camera.close()

    def test_a_camera_switched_off_and_on_again_is_found(self) -> None:
        server = JpegServer(numbered)
        url, port = server.url, server.port
        camera = LiveCamera(lambda: open_address(url), BRIEF)
        wait_until(lambda: online(camera))
        server.close()
        wait_until(lambda: not online(camera))
        before = camera.status().frames
        with JpegServer(lambda: numbered(40), port=port):
            wait_until(lambda: online(camera))
            wait_until(lambda: camera.status().frames > before + 5)
            camera.close()

    def test_a_driver_that_never_returns_is_left_to_itself(self) -> None:
        hang = threading.Event()
        opened: list[int] = []
        now_ns = [0]

        class Stuck:
            def read(self) -> bytes:
                hang.wait(60)
                raise CameraError("gone")

            def close(self) -> None:
                pass

            def describe(self) -> str:
                return "stuck"

        def open_stuck() -> Stuck:
            opened.append(1)
            return Stuck()

        camera = LiveCamera(open_stuck, clock=lambda: now_ns[0])
        wait_until(lambda: len(opened) == 1 and camera.status().got == "stuck")
        now_ns[0] = 16_000_000_000
        assert isinstance(camera.status(), CameraStatus)
        wait_until(lambda: len(opened) == 2)
        hang.set()
        camera.close()

    def test_whatever_a_driver_throws_it_is_tried_again(self) -> None:
        opened: list[int] = []

        class Faulty:
            def read(self) -> bytes:
                if len(opened) == 1:
                    raise ValueError("a driver's own fault")
                time.sleep(0.01)
                return jpeg(next(numbers))

            def close(self) -> None:
                pass

            def describe(self) -> str:
                return "faulty"

        numbers = count()

        def open_faulty() -> Faulty:
            opened.append(1)
            return Faulty()

        camera = LiveCamera(open_faulty)
        wait_until(lambda: camera.status().trouble == "a driver's own fault" or len(opened) > 1)
        wait_until(lambda: online(camera))
        camera.close()


class TestAddresses:
    def test_a_password_is_sent_and_never_shown(self) -> None:
        heard: list[str] = []

        with JpegServer(numbered) as server:
            handler = server._http.RequestHandlerClass
            original = handler.do_GET  # type: ignore[attr-defined]

            def noting(self: object) -> None:
                heard.append(self.headers["Authorization"])  # type: ignore[attr-defined]
                original(self)

            handler.do_GET = noting  # type: ignore[attr-defined]
            try:
                url = server.url.replace("127", "heron:s%40fe@127")
                feed = MjpegFeed(url)
                feed.read()
                feed.close()
            finally:
                handler.do_GET = original  # type: ignore[attr-defined]
        assert heard == ["Basic " + base64.b64encode(b"heron:s@fe").decode()]
        assert "s%40fe" not in feed.describe()
        assert without_password("http://a:b@c:8/v?x=1") == "http://c:8/v"

    def test_a_page_is_no_camera(self) -> None:
        with (
            JpegServer(numbered) as server,
            pytest.raises(CameraError, match="gives a web page"),
        ):
            open_address(server.url.replace("/video", "/page"))

    def test_a_wrong_path_is_told(self) -> None:
        with JpegServer(numbered) as server, pytest.raises(CameraError, match="answers 404"):
            open_address(server.url + "s")

    def test_nobody_there_is_told(self) -> None:
        with JpegServer(numbered) as server:
            url = server.url
        with pytest.raises(CameraError, match="does not answer"):
            open_address(url)

    @pytest.mark.parametrize("text", ["ftp://1.2.3.4/x", "http://", "x://y"])
    def test_addresses_of_no_known_kind_are_refused(self, text: str) -> None:
        with pytest.raises(CameraError, match=r"allowed are .*http, https, rtsp"):
            live_source(text, CameraSettings())
