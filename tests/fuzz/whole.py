"""All fuzzing there is, one program after another, and a table of what each counted at its end.

    python -m tests.fuzz.whole --inputs 100000 --seed 1 --out fuzz_results

Mutations of valid files under the watchdog (``campaign``, ``--inputs`` in all), inputs drawn by
hypothesis (``drawn``), inputs led by coverage (``guided``).  A line is written when a program has
ended, to ``counts.txt`` too; inputs of one that failed or was ended count as none.  ``--way`` and
``--target`` take a part.  Ends with 1 if anything was found.
"""

import argparse
import re
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.fuzz.drawn import COUNTED
from tests.fuzz.targets import NAMES, target_named

WAYS = ("campaign", "drawn", "guided")
DRAWN = {"plan": 4000, "sidecar": 1000, "clip": 400, "log": 400, "name": 400}
GUIDED = {"plan": 20_000, "sidecar": 4000, "clip": 2000, "log": 1000}
_ALL_OF_CAMPAIGN = r"^all +(\d+) +\d+ +\d+ +0 "
_ALL_OF_GUIDED = r"^stat::number_of_executed_units: (\d+)"


@dataclass(frozen=True, slots=True)
class Run:
    """One program: ``counts`` is the line, as a pattern, in which it says how many it fed."""

    way: str
    target: str
    arguments: tuple[str, ...]
    counts: str

    def fed(self, out: Path) -> int | None:
        """How many inputs, by its own count at its end; None if it found anything."""
        command = [sys.executable, "-m", f"tests.fuzz.{self.way}", *self.arguments]
        said = out / f"{self.way}_{self.target}.txt"
        with said.open("w", encoding="utf-8") as file:
            done = subprocess.run(command, stdout=file, stderr=subprocess.STDOUT, check=False)
        text = said.read_text(encoding="utf-8", errors="replace")
        found = re.findall(self.counts, text, re.MULTILINE)
        return int(found[-1]) if found and done.returncode == 0 else None


def runs(inputs: int, seed: int, out: Path) -> Iterator[Run]:
    """All of them, the quick targets first."""
    shares = {name: target_named(name).share for name in NAMES}
    seeded, kept = ("--seed", str(seed)), ("--out", str(out / "findings"))
    for name, share in shares.items():
        count = ("--inputs", str(round(inputs * share / sum(shares.values()))))
        yield Run("campaign", name, ("--target", name, *count, *seeded, *kept), _ALL_OF_CAMPAIGN)
    for name, number in DRAWN.items():
        yield Run("drawn", name, (name, "--inputs", str(number), *seeded), f"^{COUNTED}(\\d+)")
    for name, number in GUIDED.items():
        words = (name, "--inputs", str(number), *seeded, *kept)
        yield Run("guided", name, words, _ALL_OF_GUIDED)


def main(words: list[str] | None = None) -> int:
    """The exit code: 0 if nothing was found."""
    asked = _asked(words)
    asked.out.mkdir(parents=True, exist_ok=True)
    counts = (asked.out / "counts.txt").open("a", encoding="utf-8")

    def say(line: str) -> None:
        print(line, flush=True)
        print(line, file=counts, flush=True)

    with counts:
        say(f"{'way':<10}{'target':<10}{'inputs':>9}{'seconds':>9}")
        ways, targets = asked.way or WAYS, asked.target or NAMES
        every = runs(asked.inputs, asked.seed, asked.out)
        chosen = [run for run in every if run.way in ways and run.target in targets]
        return _tell_all(chosen, asked.out, say)


def _tell_all(chosen: list[Run], out: Path, say: Callable[[str], None]) -> int:
    total, failed = 0, 0
    for run in chosen:
        began_s = time.monotonic()
        fed = run.fed(out)
        total, failed = total + (fed or 0), failed + (fed is None)
        told = f"{fed:>9}" if fed is not None else "   FOUND "
        say(f"{run.way:<10}{run.target:<10}{told}{time.monotonic() - began_s:>9.0f}")
    say(f"{total} inputs, {failed} of {len(chosen)} programs found something")
    return 1 if failed else 0


def _asked(words: list[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz.whole", description=__doc__)
    parser.add_argument("--inputs", type=int, default=100_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--way", action="append", choices=WAYS)
    parser.add_argument("--target", action="append", choices=NAMES)
    parser.add_argument("--out", type=Path, default=Path("fuzz_results"))
    return parser.parse_args(words)


if __name__ == "__main__":
    sys.exit(main())
