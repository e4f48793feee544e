"""A kind of camera: the addresses it goes by, and how one of them is opened."""

from collections.abc import Callable
from dataclasses import dataclass

from baycue.capture.feed import Feed


@dataclass(frozen=True, slots=True)
class CameraKind:
    """``schemes``: what stands before ``://`` in its addresses; ``example``: such an address.

    ``open_feed`` opens an address, again after the camera was lost; it raises CameraError.
    ``has_host``: whether a host must follow the ``://``.
    """

    schemes: tuple[str, ...]
    example: str
    open_feed: Callable[[str], Feed]
    has_host: bool = True
