"""Starting a process that no Ctrl-C shall end."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from multiprocessing import resource_tracker


@contextmanager
def interrupts_held() -> Iterator[None]:
    """A process started meanwhile hears no Ctrl-C, not even before it has begun."""
    if not hasattr(signal, "pthread_sigmask"):  # Windows
        yield
        return
    # Started here, for starting it lets interrupts through again.
    resource_tracker.ensure_running()
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
