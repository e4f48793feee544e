"""Work for many items in parallel processes; one that dies takes nothing else along."""

import multiprocessing
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from typing import TypeVar

import cv2

D = TypeVar("D")
R = TypeVar("R")


def in_processes(
    items: Sequence[D], workers: int, work: Callable[[D], R]
) -> Iterator[tuple[D, Future[R]]]:
    """Each item with its future, done, as soon as it is.

    A process that dies (a fault in a decoder, memory run out) breaks its pool.  Whoever may
    have been at work in it is then tried alone; only one that breaks its own pool keeps the
    BrokenProcessPool, and the rest go on in a new one.
    """
    waiting = list(items)
    while waiting:
        broken = []
        for place, future in _in_pool(waiting, workers, work):
            if _died(future):
                broken.append(place)
            else:
                yield waiting[place], future
        left = [waiting[place] for place in sorted(broken)]
        # Work is handed out in order, so that those at work were the first of what is left.
        suspects, waiting = left[:workers], left[workers:]
        for suspect in suspects:
            for _, future in _in_pool([suspect], 1, work):
                yield suspect, future


def one_thread_each() -> None:
    """For a process that works beside others: OpenCV keeps to one thread."""
    cv2.setNumThreads(1)


def _in_pool(
    items: Sequence[D], workers: int, work: Callable[[D], R]
) -> Iterator[tuple[int, Future[R]]]:
    """Each item's place and its future, done; those not begun are cancelled on leaving."""
    # Fresh processes: the pose model's threads do not survive a fork.
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(workers, context, one_thread_each) as pool:
        places: dict[Future[R], int] = {}
        try:
            for place, item in enumerate(items):
                places[pool.submit(work, item)] = place
            for done in as_completed(places):
                yield places[done], done
        finally:
            pool.shutdown(wait=True, cancel_futures=True)


def _died(future: Future[R]) -> bool:
    return isinstance(future.exception(), BrokenProcessPool)
