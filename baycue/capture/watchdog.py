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
    """What is remembered of the pictures since the camera was opened."""

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
        if self.newest_ns is None or self.changed_ns is None:
            return "no picture yet"
        if now_ns - self.newest_ns > self.patience.silent_ns:
            return f"no picture for {(now_ns - self.newest_ns) / 1e9:.0f} s"
        frozen_ns = self.patience.frozen_ns
        if frozen_ns is not None and self.newest_ns - self.changed_ns > frozen_ns:
            return f"the same picture for {(self.newest_ns - self.changed_ns) / 1e9:.0f} s"
        return None

    def is_frozen(self) -> bool:
        """Whether pictures come but have long been the same."""
        return self.newest_ns is not None and self.trouble(self.newest_ns) is not None


def fingerprint(content: Content) -> int:
    """A number that equal pictures share and pictures with sensor noise do not."""
    if isinstance(content, bytes):
        return zlib.crc32(content)
    return zlib.crc32(np.ascontiguousarray(content[::_EVERY_PX, ::_EVERY_PX]).tobytes())
