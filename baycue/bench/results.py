"""Records on disk: one line of JSON a swing, only ever added to, so that a run can go on."""

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from baycue.bench.record import Record, from_line, to_line
from baycue.errors import OtherRunError

R = TypeVar("R")


def read_results(path: Path, seed: int) -> tuple[Record, ...]:
    """The records so far, none if there is no file; a last line cut short is left out.

    Raises OutputError for a file of another seed, or one that is no such file.
    """
    records = parsed_lines(path, from_line)
    other = next((r.draw.seed for r in records if r.draw.seed != seed), None)
    if other is not None:
        raise OtherRunError(f"{path}: holds swings of seed {other}, not {seed}; name another --out")
    return records


def add_result(path: Path, record: Record) -> None:
    """Append one record; mends a last line that was cut short by dropping it."""
    add_line(path, to_line(record))


def parsed_lines(path: Path, parse: Callable[[str], R]) -> tuple[R, ...]:
    """Each whole line of a file as what ``parse`` makes of it, none if there is no file.

    Raises OutputError for a line of which ``parse`` can make nothing (ValueError).
    """
    if not path.exists():
        return ()
    lines = path.read_text(encoding="utf-8").split("\n")
    whole = lines[:-1]  # what follows the last line end was cut short, or is empty
    return tuple(_parsed(path, number, line, parse) for number, line in enumerate(whole, start=1))


def add_line(path: Path, line: str) -> None:
    """Append one line; mends a last one that was cut short by dropping it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    _drop_cut_line(path)
    with path.open("a", encoding="utf-8") as file:
        file.write(line + "\n")


def missing_numbers(records: tuple[Record, ...], swings: int) -> tuple[int, ...]:
    """The numbers from 0 to ``swings`` - 1 that have no record yet."""
    done = {record.draw.number for record in records}
    return tuple(number for number in range(swings) if number not in done)


def _parsed(path: Path, number: int, line: str, parse: Callable[[str], R]) -> R:
    try:
        return parse(line)
    except ValueError as error:
        reason = str(error).splitlines()[0]
        raise OtherRunError(f"{path}, line {number}: no bench result ({reason})") from None


def _drop_cut_line(path: Path) -> None:
    if not path.exists():
        return
    text = path.read_bytes()
    if text and not text.endswith(b"\n"):
        path.write_bytes(text[: text.rfind(b"\n") + 1])
