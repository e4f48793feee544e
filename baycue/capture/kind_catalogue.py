"""Every kind of camera with addresses: each module of ``kinds`` that defines ``KIND``."""

from functools import cache
from urllib.parse import urlsplit

import baycue.capture.kinds
from baycue.capture.camera_kind import CameraKind
from baycue.discovered import discovered
from baycue.errors import CameraError


@cache
def camera_kinds() -> tuple[CameraKind, ...]:
    """All kinds, in order of their schemes."""
    return tuple(sorted(discovered(baycue.capture.kinds, "KIND"), key=lambda kind: kind.schemes))


def kind_of(address: str) -> CameraKind:
    """The kind that has such addresses; CameraError if none has."""
    parts = urlsplit(address)
    found = next((kind for kind in camera_kinds() if parts.scheme in kind.schemes), None)
    if found is None or (found.has_host and not parts.hostname):
        schemes = ", ".join(scheme for kind in camera_kinds() for scheme in kind.schemes)
        raise CameraError(
            f"{address}: no address of a camera; allowed are {schemes} with a host, "
            f"such as {(found or camera_kinds()[0]).example}"
        )
    return found
