"""A process that never outlives the one that started it."""

import multiprocessing
import os
import threading


def end_with_parent() -> None:
    """From now on end this process, whatever it is at, as soon as its parent has died.

    For a process of ``multiprocessing``; what it writes must bear being cut off at any byte.
    """
    parent = multiprocessing.parent_process()
    if parent is None:
        return

    def watch() -> None:
        parent.join()
        os._exit(1)

    threading.Thread(target=watch, name="with parent", daemon=True).start()
