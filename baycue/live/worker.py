"""A thread for work that nobody waits for: of the tasks that wait, only the newest is done."""

import threading
from collections.abc import Callable
from typing import Generic, TypeVar

Task = TypeVar("Task")


class Worker(Generic[Task]):
    """Does one task at a time; asking never waits, and replaces a task not yet begun.

    A task that fails is forgotten but for ``error``: whatever depends on it does without.
    """

    def __init__(self, do: Callable[[Task], None], name: str) -> None:
        self.error: Exception | None = None
        self._do = do
        self._waiting: Task | None = None
        self._closed = False
        self._turn = threading.Condition()
        self._thread = threading.Thread(target=self._run, name=name, daemon=True)
        self._thread.start()

    def ask(self, task: Task) -> None:
        """Have it done soon."""
        with self._turn:
            self._waiting = task
            self._turn.notify_all()

    def close(self) -> None:
        """End the thread after what it is doing now."""
        with self._turn:
            self._closed = True
            self._turn.notify_all()
        self._thread.join()

    def _run(self) -> None:
        while self._does_next():
            pass

    def _does_next(self) -> bool:
        """Do a task, which is let go of afterwards; False if there will be none."""
        with self._turn:
            self._turn.wait_for(lambda: self._closed or self._waiting is not None)
            task, self._waiting = self._waiting, None
            if task is None or self._closed:
                return False
        try:
            self._do(task)
        except Exception as error:
            self.error = error
        return True
