"""A campaign: so many damaged and hostile inputs, each with a time and a memory limit.

    python -m tests.fuzz.campaign --inputs 100000 --seed 1 --out findings

Prints a line for each target and ends with 1 if anything was found. A finding's input and
traceback go into the folder. ``--target`` takes one target alone, ``--from`` begins later, and
Ctrl-C ends a target early and counts what was done.
"""

import argparse
import collections
import sys
import time
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from tests.fuzz.targets import NAMES, target_named
from tests.fuzz.watchdog import Fed, fed

_MOST_KEPT = 200


@dataclass(slots=True)
class Tally:
    """How a target's inputs went; ``found``: the findings by what they have in common."""

    seconds: float = 0.0
    how: collections.Counter[str] = field(default_factory=collections.Counter)
    found: collections.Counter[str] = field(default_factory=collections.Counter)

    def add(self, answer: Fed) -> None:
        """Count one."""
        self.how[answer.how] += 1
        if answer.is_finding:
            last = answer.why.strip().splitlines()[-1:] or [""]
            self.found[f"{answer.how}: {last[0][:100]}"] += 1

    def line(self, name: str) -> str:
        """For the table."""
        inputs = self.how.total()
        found = inputs - self.how["taken"] - self.how["refused"]
        rate = inputs / self.seconds if self.seconds else 0.0
        return (
            f"{name:<10}{inputs:>9}{self.how['taken']:>9}{self.how['refused']:>9}{found:>9}"
            f"{rate:>11.0f}"
        )


def run_target(name: str, seed: int, numbers: range, out: Path) -> Tally:
    """All of a target's inputs, or those until Ctrl-C."""
    tally, began = Tally(), time.monotonic()
    with suppress(KeyboardInterrupt):
        for answer in fed(name, seed, numbers):
            tally.add(answer)
            if answer.is_finding and tally.found.total() <= _MOST_KEPT:
                _keep(name, seed, answer, out)
    tally.seconds = time.monotonic() - began
    return tally


def _keep(name: str, seed: int, answer: Fed, out: Path) -> None:
    out.mkdir(parents=True, exist_ok=True)
    stem = out / f"{name}_{seed}_{answer.number}"
    stem.with_suffix(".input").write_bytes(target_named(name).input(seed, answer.number))
    stem.with_suffix(".txt").write_text(f"{answer.how}\n{answer.why}\n")


def main(words: list[str] | None = None) -> int:
    """The exit code: 0 if nothing was found."""
    asked = _asked(words)
    chosen = {name: target_named(name) for name in asked.target or NAMES}
    shares = sum(target.share for target in chosen.values())
    print(f"{'target':<10}{'inputs':>9}{'taken':>9}{'refused':>9}{'findings':>9}{'inputs/s':>11}")
    found: collections.Counter[str] = collections.Counter()
    whole = Tally()
    for name, target in chosen.items():
        count = round(asked.inputs * target.share / shares)
        tally = run_target(name, asked.seed, range(asked.first, asked.first + count), asked.out)
        print(tally.line(name), flush=True)
        whole.how.update(tally.how)
        whole.seconds += tally.seconds
        found.update({f"{name}: {what}": n for what, n in tally.found.items()})
    print(whole.line("all"))
    for what, times in found.most_common():
        print(f"{times:>6} x {what}")
    return 1 if found else 0


def _asked(words: list[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz.campaign", description=__doc__)
    parser.add_argument("--inputs", type=int, default=100_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--from", type=int, default=0, dest="first")
    parser.add_argument("--target", action="append", choices=NAMES)
    parser.add_argument("--out", type=Path, default=Path("fuzz_findings"))
    return parser.parse_args(words)


if __name__ == "__main__":
    sys.exit(main())
