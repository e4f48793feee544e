"""Sources by number, name, address and path; settings asked for and read back; device lists."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import av
import cv2
import pytest

from baycue.capture.camera import LiveCamera
from baycue.capture.devices import CameraDevice, camera_named, cameras_in
from baycue.capture.opening import live_source, open_address
from baycue.capture.paced_file import PacedFileFeed
from baycue.capture.settings import CameraAnswer, CameraSettings, exposure_value
from baycue.capture.shot import Shot
from baycue.capture.stream import StreamFeed
from baycue.capture.webcam import WebcamFeed, fourcc_text
from baycue.errors import CameraError, FeedEndedError, RecordingError
from tests.conftest import MakeClip, number_in
from tests.test_capture_network import wait_until

S = 1_000_000_000


class Clock:
    """A clock that moves only when somebody sleeps."""

    def __init__(self) -> None:
        self.at_ns = 5 * S
        self.slept_s: list[float] = []

    def now(self) -> int:
        return self.at_ns

    def sleep(self, seconds: float) -> None:
        self.slept_s.append(seconds)
        self.at_ns += round(seconds * 1e9)


class TestPacedFile:
    def test_each_frame_comes_at_its_time_and_the_end_is_told(self, make_clip: MakeClip) -> None:
        stamps_ns = [0, 33_000_000, 66_000_000, 150_000_000, *range(S // 5, S // 2, S // 30)]
        clock = Clock()
        feed = PacedFileFeed(make_clip(stamps_ns), clock.now, clock.sleep)
        came_ns = []
        for k in range(len(stamps_ns)):
            content = feed.read()
            assert not isinstance(content, bytes)
            assert number_in(content) == k
            came_ns.append(clock.at_ns - 5 * S)
        with pytest.raises(FeedEndedError, match="played to its end"):
            feed.read()
        feed.close()
        assert came_ns == pytest.approx(stamps_ns, abs=20_000)  # the clip's clock has 11 us ticks

    def test_a_reader_who_is_late_waits_no_more(self, make_clip: MakeClip) -> None:
        clock = Clock()
        feed = PacedFileFeed(make_clip([k * S // 30 for k in range(20)]), clock.now, clock.sleep)
        feed.read()
        clock.at_ns += S
        slept = len(clock.slept_s)
        for _ in range(19):
            feed.read()
        feed.close()
        assert len(clock.slept_s) == slept

    def test_a_camera_of_a_file_ends_with_it(self, make_clip: MakeClip) -> None:
        source = live_source(str(make_clip([k * S // 30 for k in range(20)])), CameraSettings())
        camera = LiveCamera(source.open_feed, source.patience)
        wait_until(lambda: camera.status().ended)
        status = camera.status()
        camera.close()
        assert (status.frames, status.online, source.ends) == (20, False, True)
        assert status.trouble.endswith("played to its end")

    def test_a_missing_file_is_told_before_anything_starts(self, tmp_path: Path) -> None:
        with pytest.raises(RecordingError, match="no such file"):
            live_source(str(tmp_path / "none.mp4"), CameraSettings())


def read_number(feed: StreamFeed) -> int:
    content = feed.read()
    assert not isinstance(content, bytes)
    return number_in(content)


def as_transport_stream(clip: Path) -> Path:
    """The clip's packets in MPEG-TS (ISO/IEC 13818-1), which can be sent as it is made."""
    packed = clip.with_suffix(".ts")
    with av.open(str(clip)) as source, av.open(str(packed), "w", format="mpegts") as target:
        stream = target.add_stream_from_template(source.streams.video[0])
        for packet in source.demux(source.streams.video[0]):
            if packet.dts is not None:
                packet.stream = stream
                target.mux(packet)
    return packed


@contextmanager
def web_server(folder: Path) -> Iterator[str]:
    """A plain web server over a folder, on this machine only."""

    class Quiet(SimpleHTTPRequestHandler):
        def guess_type(self, path: object) -> str:
            return "video/mp2t"

        def log_message(self, format: str, *args: object) -> None:
            """Say nothing."""

    with ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder))) as server:
        server.daemon_threads = True
        server.block_on_close = False
        threading.Thread(target=server.serve_forever, args=(0.05,), daemon=True).start()
        yield f"http://127.0.0.1:{server.server_address[1]}"
        server.shutdown()


class TestStream:
    def test_coded_video_is_read_frame_by_frame(self, make_clip: MakeClip) -> None:
        feed = StreamFeed(str(make_clip([k * S // 30 for k in range(12)])))
        numbers = [read_number(feed) for _ in range(12)]
        with pytest.raises(CameraError, match="ended the stream"):
            feed.read()
        assert "h264, 64x48" in feed.describe()
        feed.close()
        assert numbers == list(range(12))

    def test_coded_video_over_http_goes_to_the_decoder(
        self, make_clip: MakeClip, tmp_path: Path
    ) -> None:
        packed = as_transport_stream(make_clip([k * S // 30 for k in range(60)]))
        with web_server(tmp_path) as address:
            feed = open_address(f"{address}/{packed.name}")
            assert isinstance(feed, StreamFeed)
            numbers = [read_number(feed) for _ in range(50)]
            feed.close()
        assert numbers == list(range(50))

    def test_no_answer_is_told(self) -> None:
        with pytest.raises(CameraError, match="gives no video"):
            StreamFeed("rtsp://127.0.0.1:9/none")


class TestShot:
    @pytest.mark.parametrize("content", [b"", b"no picture", b"\xff\xd8\xff\xd9"])
    def test_what_is_no_picture_is_told(self, content: bytes) -> None:
        with pytest.raises(CameraError, match=r"damaged|empty"):
            Shot(0, 0, content).developed()


def node(folder: Path, number: int, name: str, index: str = "0") -> None:
    place = folder / f"video{number}"
    place.mkdir()
    (place / "name").write_text(name + "\n")
    (place / "index").write_text(index + "\n")


class TestDevices:
    def test_linux_tells_names_and_only_nodes_that_give_pictures_count(
        self, tmp_path: Path
    ) -> None:
        node(tmp_path, 10, "Desk camera")
        node(tmp_path, 2, "Bay camera: HD")
        node(tmp_path, 3, "Bay camera: HD", index="1")
        assert cameras_in(tmp_path) == (
            CameraDevice(2, "Bay camera: HD"),
            CameraDevice(10, "Desk camera"),
        )

    def test_no_such_folder_is_no_camera(self, tmp_path: Path) -> None:
        assert cameras_in(tmp_path / "none") == ()

    def test_a_camera_is_found_by_part_of_its_name(self) -> None:
        found = (CameraDevice(2, "Bay camera: HD"), CameraDevice(10, "Desk camera"))
        assert camera_named("bay", found).index == 2
        with pytest.raises(CameraError, match=r"several fit; give the number.*10 \"Desk camera\""):
            camera_named("camera", found)
        with pytest.raises(CameraError, match='did you mean "Desk camera"'):
            camera_named("Dask camera", found)
        with pytest.raises(CameraError, match="Found: none"):
            camera_named("bay", ())


class TestSettings:
    def test_what_was_got_is_told_and_where_it_differs(self) -> None:
        got = CameraAnswer("V4L2", 640, 480, 30.0, "YUYV")
        told = got.describe(CameraSettings(1280, 720, 60.0))
        assert told.startswith("640x480, 30 frames a second as the driver says, YUYV, through V4L2")
        assert told.endswith("(asked for 1280x720, 60 a second, MJPG)")
        assert "asked" not in got.describe(CameraSettings(640, 480, 30.0, jpeg=False))

    def test_exposure_in_the_drivers_own_numbers(self) -> None:
        """V4L2's exposure_time_absolute counts 100 us (kernel.org, V4L2 camera controls)."""
        assert exposure_value(4.0, "linux") == 40
        assert exposure_value(1000 / 256, "win32") == -8

    def test_a_packing_has_four_letters(self) -> None:
        assert fourcc_text(cv2.VideoWriter.fourcc(*"MJPG")) == "MJPG"
        assert fourcc_text(0) == ""

    def test_a_webcam_that_is_not_there_is_told(self) -> None:
        with pytest.raises(CameraError, match="camera 97: cannot be opened"):
            WebcamFeed(97, CameraSettings())
