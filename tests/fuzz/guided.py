"""Fuzzing led by coverage: inputs that reach new lines of the program are kept and changed further.

    python -m tests.fuzz.guided plan --inputs 20000 --seed 1

For every target that takes a file's bytes.  Needs atheris, which has wheels for Linux only.
Ends with 0 if all went well; else the traceback is shown and the input lies in the folder.
"""

import argparse
import gzip
import resource
import sys
import tempfile
from collections.abc import Callable
from importlib import import_module
from pathlib import Path

import atheris

from tests.fuzz.arena import Arena
from tests.fuzz.bounded import feed_bounded
from tests.fuzz.target import Target

_CLOCK_LIMIT_S = 600
"""By the clock, for an input that never ends; a busy machine may take long over one that does."""
MEMORY_MB = 3000
LONGEST_BYTES = 20_000
"""Longer only where a seed is."""
_LED_BY = ["baycue.plan", "baycue.keep", "baycue.capture", "yaml"]
_MODULES = {"plan": "plans", "sidecar": "sidecars", "clip": "clips", "log": "logs"}
NAMES = tuple(_MODULES)


def _target(name: str) -> tuple[Target, list[bytes]]:
    """Made ready for coverage, with whole inputs to begin from."""
    with atheris.instrument_imports(include=_LED_BY):
        module = import_module(f"tests.fuzz.{_MODULES[name]}")
    whole: dict[str, Callable[[], list[bytes]]] = {
        "plan": lambda: [text.encode() for text in module.examples()],
        "sidecar": lambda: [module.seed_text()],
        "clip": lambda: [bytes([kind]) + module.seed(kind) for kind in range(module.KINDS)],
        "log": lambda: [module.seed()],
    }
    return module.TARGET, whole[name]()


def main(words: list[str] | None = None) -> None:
    """Does not return: the fuzzer ends the process."""
    asked = _asked(words)
    folder = Path(tempfile.mkdtemp(prefix="baycue_guided_"))
    corpus = folder / "corpus"
    corpus.mkdir()
    target, seeds = _target(asked.target)
    for number, data in enumerate(seeds):
        (corpus / f"seed_{number}").write_bytes(data)
    asked.out.mkdir(parents=True, exist_ok=True)
    options = [
        f"-runs={asked.inputs}",
        f"-seed={asked.seed}",
        f"-timeout={_CLOCK_LIMIT_S}",
        "-rss_limit_mb=0",  # its own count begins with what the process that started it held
        f"-max_len={max(LONGEST_BYTES, *map(len, seeds))}",
        f"-artifact_prefix={asked.out}/",
        "-print_final_stats=1",
    ]
    arena = Arena(folder / "arena")
    # What a sidecar unpacks to is changed; gzip would hide from the fuzzer what came of it.
    dress = _packed if asked.target == "sidecar" else bytes
    target.takes(dress(seeds[0]), arena.clear())  # what is made once is made now
    atheris.Setup(
        [sys.argv[0], *options, str(corpus)],
        lambda data: feed_bounded(target, arena, dress(data)),
    )
    resource.setrlimit(resource.RLIMIT_DATA, (MEMORY_MB << 20, MEMORY_MB << 20))
    atheris.Fuzz()


def _packed(data: bytes) -> bytes:
    return gzip.compress(data, compresslevel=1)


def _asked(words: list[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz.guided", description=__doc__)
    parser.add_argument("target", choices=NAMES)
    parser.add_argument("--inputs", type=int, default=20_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out", type=Path, default=Path("fuzz_findings"))
    return parser.parse_args(words)


if __name__ == "__main__":
    main()
