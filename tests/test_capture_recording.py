from fractions import Fraction
from pathlib import Path

import av
import cv2
import numpy as np
import pytest
from av.video.frame import VideoFrame
from av.video.stream import VideoStream

from baycue.capture.probe import measured_fps
from baycue.capture.recording import RecordingSource
from baycue.capture.source import FrameSource
from baycue.errors import RecordingError
from tests.conftest import MakeClip, number_in


def stamps_ns(count: int, fps: float) -> list[int]:
    return [round(i * 1e9 / fps) for i in range(count)]


def write_noise(
    path: Path,
    container_options: dict[str, str] | None = None,
    codec: str = "libx264",
    count: int = 60,
    ticks: list[int] | None = None,
    rotation_deg: int = 0,
    pixel_aspect: Fraction | None = None,
) -> Path:
    """A video of noise (so that it has some size), 30 a second, red in its top left corner."""
    rng = np.random.default_rng(0)
    with av.open(str(path), "w", options=container_options or {}) as container:
        stream = container.add_stream(codec, rate=30)
        assert isinstance(stream, VideoStream)
        stream.width, stream.height = 96, 64
        stream.pix_fmt = "yuvj420p" if codec == "mjpeg" else "yuv420p"
        if pixel_aspect is not None:
            stream.codec_context.sample_aspect_ratio = pixel_aspect
        if rotation_deg:
            stream.set_display_rotation(rotation_deg)
        for tick in ticks or range(count):
            picture = rng.integers(0, 90, (64, 96, 3), dtype=np.uint8)
            picture[:24, :24] = (0, 0, 255)
            frame = VideoFrame.from_ndarray(picture, format="bgr24")
            frame.pts, frame.time_base = tick, Fraction(1, 30)
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))
    return path


def cut(path: Path, share: float) -> Path:
    whole = path.read_bytes()
    cut_path = path.with_name(f"cut_{path.name}")
    cut_path.write_bytes(whole[: int(len(whole) * share)])
    return cut_path


def frames_before_error(path: Path) -> tuple[int, str]:
    """How many frames came, and the text of the error that ended them."""
    count = 0
    try:
        with RecordingSource(path) as source:
            for _ in source:
                count += 1
    except RecordingError as error:
        return count, str(error)
    raise AssertionError(f"{path} was read to its end")


def test_stamps_start_at_zero_and_frames_keep_their_order(make_clip: MakeClip) -> None:
    source: FrameSource = RecordingSource(make_clip(stamps_ns(60, 60)))
    with source:
        frames = list(source)
    assert frames[0].stamp_ns == 0
    assert [frame.index for frame in frames] == list(range(60))
    assert [number_in(frame.picture_bgr) for frame in frames] == list(range(60))
    assert (source.width_px, source.height_px) == (64, 48)
    assert source.dropped_frames == 0


@pytest.mark.parametrize("fps", [23.976, 24.0, 29.97, 59.94, 120.0, 240.0])
def test_frame_rate_is_measured_not_rounded(make_clip: MakeClip, fps: float) -> None:
    with RecordingSource(make_clip(stamps_ns(48, fps))) as source:
        assert source.nominal_fps == pytest.approx(fps, rel=2e-4)


def test_frame_rate_ignores_a_pause() -> None:
    times = [i / 30 for i in range(60)] + [5 + i / 30 for i in range(30)]
    assert measured_fps(times) == pytest.approx(30)


def test_two_intervals_of_which_neither_is_near_their_middle_still_have_a_rate() -> None:
    """As fuzzing found them in a damaged file: the middle of 1 s and 1000 s is near neither."""
    assert measured_fps([0.0, 1.0, 1001.0]) == pytest.approx(1)


def test_frame_rate_survives_whole_millisecond_stamps(tmp_path: Path) -> None:
    with RecordingSource(write_noise(tmp_path / "clip.mkv")) as source:
        assert source.nominal_fps == pytest.approx(30, rel=1e-3)


def test_a_recording_can_be_read_twice(make_clip: MakeClip) -> None:
    with RecordingSource(make_clip(stamps_ns(30, 30))) as source:
        assert len(list(source)) == len(list(source)) == 30


def test_leaving_early_stops_the_decoder(make_clip: MakeClip) -> None:
    with RecordingSource(make_clip(stamps_ns(60, 30))) as source:
        frames = iter(source)
        next(frames)
    assert list(frames) == []


@pytest.mark.parametrize(
    ("name", "codec"), [("a.mp4", "libx264"), ("a.mkv", "libx264"), ("a.avi", "mjpeg")]
)
def test_reads_common_containers(tmp_path: Path, name: str, codec: str) -> None:
    with RecordingSource(write_noise(tmp_path / name, codec=codec)) as source:
        assert len(list(source)) == source.frame_count == 60


def test_frames_with_stamps_that_do_not_increase_are_dropped_and_counted(tmp_path: Path) -> None:
    ticks = [0, 1, 2, 2, 2, 3, 4, 5]
    with RecordingSource(_with_repeated_stamps(tmp_path / "a.mkv", ticks)) as source:
        frames = list(source)
    assert [round(frame.stamp_ns * 30 / 1e9) for frame in frames] == [0, 1, 2, 3, 4, 5]
    assert source.dropped_frames == 2


def _with_repeated_stamps(path: Path, ticks: list[int]) -> Path:
    """A Motion JPEG Matroska file; each picture stands alone, so any stamp can be given."""
    with av.open(str(path), "w") as container:
        stream = container.add_stream("mjpeg", rate=30)
        stream.width, stream.height, stream.pix_fmt = 64, 48, "yuvj420p"
        for number, tick in enumerate(ticks):
            picture = np.full((48, 64, 3), number * 20, np.uint8)
            frame = VideoFrame.from_ndarray(picture, format="bgr24")
            frame.pts, frame.time_base = number, Fraction(1, 30)
            for packet in stream.encode(frame):
                packet.pts = packet.dts = tick
                container.mux(packet)
    return path


@pytest.mark.parametrize(("rotation_deg", "red_corner"), [(90, (-1, 0)), (-90, (0, -1))])
def test_rotation_metadata_turns_the_picture(
    tmp_path: Path, rotation_deg: int, red_corner: tuple[int, int]
) -> None:
    """Counterclockwise by 90 moves the top left corner to the bottom left."""
    path = write_noise(tmp_path / "a.mp4", rotation_deg=rotation_deg)
    with RecordingSource(path) as source:
        picture = next(iter(source)).picture_bgr
        assert picture.shape == (source.height_px, source.width_px, 3) == (96, 64, 3)
    row, column = red_corner
    corner = picture[row * 8, column * 8]
    assert corner[2] > 180


def test_pictures_get_square_pixels(tmp_path: Path) -> None:
    path = write_noise(tmp_path / "a.mp4", pixel_aspect=Fraction(4, 3))
    with RecordingSource(path) as source:
        assert (source.width_px, source.height_px) == (128, 64)
        assert next(iter(source)).picture_bgr.shape == (64, 128, 3)


def test_refuses_a_missing_file(tmp_path: Path) -> None:
    with pytest.raises(RecordingError, match=r"gone\.mp4: no such file"):
        RecordingSource(tmp_path / "gone.mp4")


def test_refuses_a_folder(tmp_path: Path) -> None:
    with pytest.raises(RecordingError, match="is a folder"):
        RecordingSource(tmp_path)


@pytest.mark.parametrize("name", ["a.mp4", "a.txt", "a.yaml"])
def test_refuses_a_text_file(tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    path.write_text("not a video\n" * 50)
    with pytest.raises(RecordingError, match="is not a video"):
        RecordingSource(path)


def test_refuses_a_picture(tmp_path: Path) -> None:
    path = tmp_path / "a.png"
    path.write_bytes(cv2.imencode(".png", np.zeros((8, 8, 3), np.uint8))[1].tobytes())
    with pytest.raises(RecordingError, match="is not a video"):
        RecordingSource(path)


def test_refuses_an_empty_file(tmp_path: Path) -> None:
    path = tmp_path / "a.mp4"
    path.touch()
    with pytest.raises(RecordingError, match="empty"):
        RecordingSource(path)


def test_refuses_sound_alone(tmp_path: Path) -> None:
    path = tmp_path / "a.wav"
    with av.open(str(path), "w") as container:
        stream = container.add_stream("pcm_s16le", rate=8000)
        sound = av.AudioFrame.from_ndarray(np.zeros((1, 800), np.int16), layout="mono")
        sound.sample_rate = 8000
        container.mux(stream.encode(sound))
    with pytest.raises(RecordingError, match="no picture track"):
        RecordingSource(path)


def test_refuses_a_video_without_frames(tmp_path: Path) -> None:
    path = tmp_path / "a.mp4"
    with av.open(str(path), "w", options={"movflags": "empty_moov+frag_keyframe"}) as container:
        container.add_stream("libx264", rate=30)
        container.start_encoding()
    with pytest.raises(RecordingError, match="no frames"):
        RecordingSource(path)


def test_refuses_a_single_frame(make_clip: MakeClip) -> None:
    with pytest.raises(RecordingError, match="a still picture"):
        RecordingSource(make_clip([0]))


def test_refuses_a_slow_recording_and_names_its_rate(make_clip: MakeClip) -> None:
    with pytest.raises(RecordingError, match=r"runs at 15\.0 frames a second, and 24 is"):
        RecordingSource(make_clip(stamps_ns(30, 15)))


def test_refuses_an_mp4_cut_before_its_index(tmp_path: Path) -> None:
    path = cut(write_noise(tmp_path / "a.mp4"), 0.6)
    assert "cut off before its end, 0 frames are readable" in frames_before_error(path)[1]


def test_refuses_an_mp4_cut_after_its_index_before_any_frame_is_used(tmp_path: Path) -> None:
    path = cut(write_noise(tmp_path / "a.mp4", {"movflags": "faststart"}), 0.6)
    count, text = frames_before_error(path)
    assert count == 0
    assert "of 60 frames are readable" in text


@pytest.mark.parametrize("name", ["a.mkv", "a.avi"])
def test_refuses_other_containers_cut_off(tmp_path: Path, name: str) -> None:
    path = cut(write_noise(tmp_path / name, codec="mjpeg"), 0.6)
    count, text = frames_before_error(path)
    assert count == 0
    assert "of 60 frames are readable" in text


def test_damage_inside_is_an_error_after_the_frames_before_it(tmp_path: Path) -> None:
    path = write_noise(tmp_path / "a.mp4", {"movflags": "faststart"})
    data = bytearray(path.read_bytes())
    middle = len(data) // 2
    data[middle : middle + 3000] = np.random.default_rng(1).bytes(3000)
    path.write_bytes(data)
    count, text = frames_before_error(path)
    assert 0 < count < 40
    assert f"only {count} of 60 frames are readable" in text


def test_every_error_is_one_line(tmp_path: Path) -> None:
    assert "\n" not in frames_before_error(tmp_path)[1]
