"""The clocks of a live session."""

import time
from collections.abc import Callable
from dataclasses import dataclass

from baycue.keep.kept_session import Now, utc_now


@dataclass(frozen=True, slots=True)
class Clocks:
    """``stamp_ns``: what the camera's pictures are stamped by; ``now``: the time of day."""

    stamp_ns: Callable[[], int] = time.monotonic_ns
    now: Now = utc_now
