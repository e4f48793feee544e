"""A thread for work that nobody waits for."""

import threading

from baycue.live.worker import Worker


def test_a_newer_task_replaces_the_one_that_waits() -> None:
    begun, go_on, done = threading.Event(), threading.Event(), list[int]()

    def do(task: int) -> None:
        begun.set()
        go_on.wait(10)
        done.append(task)

    worker = Worker(do, "test")
    worker.ask(1)
    begun.wait(10)
    worker.ask(2)
    worker.ask(3)
    go_on.set()
    while len(done) < 2:
        begun.wait(0.01)
    worker.close()
    assert done == [1, 3]


def test_a_task_that_fails_is_no_end() -> None:
    failed, done = threading.Event(), threading.Event()

    def do(task: int) -> None:
        if task == 1:
            failed.set()
            raise ValueError("a fault of ours")
        done.set()

    worker = Worker(do, "test")
    worker.ask(1)
    assert failed.wait(10)
    worker.ask(2)
    assert done.wait(10)
    worker.close()
    assert str(worker.error) == "a fault of ours"
