"""A lock on an open file that the operating system lets go of when its process ends."""

import sys
from typing import IO

if sys.platform == "win32":  # pragma: no cover
    import msvcrt

    def lock(file: IO[bytes]) -> bool:
        """Take the lock until the file is closed; False if another process has it."""
        try:
            file.seek(0)
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

else:
    import fcntl

    def lock(file: IO[bytes]) -> bool:
        """Take the lock until the file is closed; False if another process has it."""
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            return False
        return True
