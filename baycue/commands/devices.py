"""Which cameras and sound devices there are."""

from rich.console import Console
from rich.table import Table

from baycue.capture.devices import CameraDevice, cameras
from baycue.cues.sound_stream import input_devices, output_devices
from baycue.errors import OutputError
from baycue.pose.quiet import native_stderr_silenced


def run_devices(console: Console) -> None:
    """List them."""
    _list_cameras(cameras(), console)
    _list_sound(console)


def _list_cameras(found: tuple[CameraDevice, ...], console: Console) -> None:
    if not found:
        console.print("No camera found. One on the network has an address and is not listed.")
        return
    table = Table("camera", "name")
    for camera in found:
        table.add_row(str(camera.index), camera.name)
    console.print(table)


def _list_sound(console: Console) -> None:
    try:
        with native_stderr_silenced():
            playing, recording = output_devices(), input_devices()
    except OutputError as error:
        console.print(f"No sound device found: {error}")
        return
    if not playing:
        console.print("No sound device found.")
        return
    table = Table("sound device", "name", "plays", "records")
    for plays, records in zip(playing, recording, strict=True):
        table.add_row(str(plays.index), plays.name, str(plays.channels), str(records.channels))
    console.print(table)
