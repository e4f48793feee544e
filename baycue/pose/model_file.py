"""The pose model shipped inside the package, checked before it is used."""

import hashlib
from importlib import resources

from baycue.errors import NotInstalledError

MODEL_NAME = "pose_landmarker_full.task"
MODEL_SHA256 = "dbed2647e73bf717e9c35acd2a77be54eb0545addecf802904cbdb9fec369afa"


def model_bytes() -> bytes:
    """The model bundle.

    Raises:
        BaycueError: it is missing from the installation, or is not the one shipped.
    """
    file = resources.files("baycue.pose") / "data" / MODEL_NAME
    try:
        content = file.read_bytes()
    except OSError:
        raise NotInstalledError(
            f"{file}: the pose model is missing; install baycue again"
        ) from None
    return checked(content, str(file))


def checked(content: bytes, name: str) -> bytes:
    """``content``, if it is the model shipped.

    Raises:
        BaycueError: its SHA-256 differs.
    """
    found = hashlib.sha256(content).hexdigest()
    if found != MODEL_SHA256:
        raise NotInstalledError(
            f"{name}: not the pose model shipped (SHA-256 {found[:12]}..., expected "
            f"{MODEL_SHA256[:12]}...); install baycue again"
        )
    return content
