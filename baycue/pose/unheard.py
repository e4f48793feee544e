"""Keeping MediaPipe to itself.

Since its first 1.x release MediaPipe sends "metrics about the performance and utilization" of its
tasks to its maker (its wheel's own privacy notice, 2026-06-05) and has no switch against that; no
picture is among them, but nothing may leave this machine at all.  Seen in 1.2.3 with strace: it
looks up ``play.googleapis.com`` and would send there by its built-in libcurl.  So libcurl is told
of a proxy that cannot be: the discard port of this machine (RFC 863), where nobody listens.  And
it is told of no certificate authority, so that it would trust nobody whom it reached.
"""

import os
from collections.abc import MutableMapping

from mediapipe.tasks.python import BaseOptions
from mediapipe.tasks.python.core.base_options_c import MpBaseOptionsC

NOWHERE = "http://127.0.0.1:9"
_PROXY_KEYS = ("https_proxy", "HTTPS_PROXY")
_EXCEPTION_KEYS = ("no_proxy", "NO_PROXY")
_ITS_HOST = "play.googleapis.com"
_NO_AUTHORITY = "no-certificate-authority"


class UnheardOptions(BaseOptions):  # type: ignore[misc]  # MediaPipe has no types
    """Base options of a task that trusts no server."""

    def to_ctypes(self) -> MpBaseOptionsC:
        """As MediaPipe makes them, but for the certificate authorities."""
        options = super().to_ctypes()
        options.ca_bundle_path = _NO_AUTHORITY.encode()
        return options


def keep_to_itself(environment: MutableMapping[str, str] = os.environ) -> None:
    """Before MediaPipe starts: whatever it sends over HTTPS goes nowhere.

    Baycue itself uses no proxy: cameras stand in the bay.
    """
    for key in _PROXY_KEYS:
        environment[key] = NOWHERE
    for key in _EXCEPTION_KEYS:
        if key in environment:
            environment[key] = ",".join(
                host for host in environment[key].split(",") if not _covers(host.strip())
            )


def _covers(exception: str) -> bool:
    """Whether an entry of ``no_proxy`` lets that host by, as libcurl matches them."""
    return exception == "*" or (
        exception != "" and f".{_ITS_HOST}".endswith(f".{exception.lstrip('.').lower()}")
    )
