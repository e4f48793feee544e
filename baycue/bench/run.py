"""Take many draws in parallel; each result is kept as soon as it is there."""

import multiprocessing
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from pathlib import Path
from typing import TypeVar

import cv2

from baycue.bench.population import Draw
from baycue.bench.record import Record
from baycue.bench.results import add_result
from baycue.bench.take import take

D = TypeVar("D")
R = TypeVar("R")
Take = Callable[[Draw], Record]


def run(
    draws: Sequence[Draw], results: Path, workers: int, take_one: Take = take
) -> Iterator[Draw]:
    """Score the draws and append their records; yields each draw once its record is kept."""
    for drawn, record in taken_in_turn(draws, workers, take_one):
        add_result(results, record)
        yield drawn


def taken_in_turn(
    draws: Sequence[D], workers: int, take_one: Callable[[D], R]
) -> Iterator[tuple[D, R]]:
    """Each draw with its record, as soon as there is one."""
    # Fresh processes: the pose model's threads do not survive a fork.
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(workers, context, _set_up) as pool:
        waiting = {pool.submit(take_one, draw): draw for draw in draws}
        try:
            for done in as_completed(waiting):
                yield waiting[done], done.result()
        finally:
            pool.shutdown(wait=True, cancel_futures=True)


def _set_up() -> None:
    cv2.setNumThreads(1)
