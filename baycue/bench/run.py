"""Take many draws in parallel; each result is kept as soon as it is there."""

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TypeVar

from baycue.bench.population import Draw
from baycue.bench.record import Record
from baycue.bench.results import add_result
from baycue.bench.take import take
from baycue.folder.processes import in_processes

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
    for draw, done in in_processes(draws, workers, take_one):
        yield draw, done.result()
