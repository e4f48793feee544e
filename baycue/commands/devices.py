"""Which cameras and sound devices there are."""

from rich.console import Console
from rich.table import Table

from baycue.capture.devices import CameraDevice, SoundDevice, cameras, sound_devices


def run_devices(console: Console) -> None:
    """List them."""
    _list_cameras(cameras(), console)
    _list_sound(sound_devices(), console)


def _list_cameras(found: tuple[CameraDevice, ...], console: Console) -> None:
    if not found:
        console.print("No camera found. One on the network has an address and is not listed.")
        return
    table = Table("camera", "name")
    for camera in found:
        table.add_row(str(camera.index), camera.name)
    console.print(table)


def _list_sound(found: tuple[SoundDevice, ...], console: Console) -> None:
    if not found:
        console.print("No sound device found.")
        return
    table = Table("sound device", "name", "plays", "records")
    for device in found:
        table.add_row(str(device.index), device.name, str(device.plays), str(device.records))
    console.print(table)
