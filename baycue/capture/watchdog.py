"""Is the camera still alive?  Decided from stamps and pictures alone."""

import zlib
from dataclasses import dataclass, replace

import numpy as np

from baycue.capture.shot import Content

_EVERY_PX = 16


@dataclass(frozen=True, slots=True)
class Patience:
    """How long a camera may say nothing, and how long the same; None: for ever.

    A sensor is never quite silent in the dark, so two seconds of equal pictures come from a
    camera that hangs.  A file may well hold equal pictures.
    """

    silent_ns: int = 1_000_000_000
    frozen_ns: int | None = 2_000_000_000


@dataclass(frozen=True, slots=True)
class Watchdog:
    """What is remembered of the pictures since the camera was opened.

    Start a camera opened anew with the last ``fingerprint``: one that hangs still does not count
    as alive.
    """

    patience: Patience
    opened_ns: int
    newest_ns: int | None = None
    changed_ns: int | None = None
    fingerprint: int | None = None

    def after(self, stamp_ns: int, fingerprint: int) -> "Watchdog":
        """One picture on."""
        changed = fingerprint != self.fingerprint
        return replace(
            self,
            newest_ns=stamp_ns,
            changed_ns=stamp_ns if changed else self.changed_ns,
            fingerprint=fingerprint,
        )

    def trouble(self, now_ns: int) -> str | None:
        """What is wrong as of now, or None for a camera that is alive."""
        if self.newest_ns is None:
            return "no picture yet"
        if now_ns - self.newest_ns > self.patience.silent_ns:
            return f"no picture for {(now_ns - self.newest_ns) / 1e9:.0f} s"
        if self.is_frozen():
            return f"the same picture for {self._unchanged_ns() / 1e9:.0f} s"
        if self.changed_ns is None and self.patience.frozen_ns is not None:
            return "still the picture from before it was lost"
        return None

    def is_frozen(self) -> bool:
        """Whether pictures come but have long been the same."""
        frozen_ns = self.patience.frozen_ns
        return frozen_ns is not None and self._unchanged_ns() > frozen_ns

    def _unchanged_ns(self) -> int:
        if self.newest_ns is None:
            return 0
        since_ns = self.opened_ns if self.changed_ns is None else self.changed_ns
        return self.newest_ns - since_ns


def fingerprint(content: Content) -> int:
    """A number that equal pictures share and pictures with sensor noise do not."""
    if isinstance(content, bytes):
        return zlib.crc32(content)
    return zlib.crc32(np.ascontiguousarray(content[::_EVERY_PX, ::_EVERY_PX]).tobytes())
