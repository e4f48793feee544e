"""Fuzzing led by coverage: inputs that reach new lines of the program are kept and changed further.

    python -m tests.fuzz.guided plan --inputs 20000 --seed 1

For the plan loader and the sidecar reader.  Needs atheris, which has wheels for Linux only.
Ends with 0 if all went well; else the traceback is shown and the input lies in the folder.
"""

import argparse
import gzip
import resource
import sys
import tempfile
import time
from pathlib import Path

import atheris

LIMIT_S = 2.0
"""Of processor time, for one input."""
_CLOCK_LIMIT_S = 600
"""By the clock, for an input that never ends; a busy machine may take long over one that does."""
MEMORY_MB = 3000
LONGEST_BYTES = 20_000

with atheris.instrument_imports(include=["baycue.plan", "baycue.keep", "yaml"]):
    from tests.fuzz import plans, sidecars
    from tests.fuzz.arena import Arena
    from tests.fuzz.target import Target

_SEEDS = {
    "plan": lambda: [text.encode() for text in plans.examples()],
    "sidecar": lambda: [sidecars.seed_text()],
}
_TARGETS = {"plan": plans.TARGET, "sidecar": sidecars.TARGET}


def main(words: list[str] | None = None) -> None:
    """Does not return: the fuzzer ends the process."""
    asked = _asked(words)
    folder = Path(tempfile.mkdtemp(prefix="baycue_guided_"))
    corpus = folder / "corpus"
    corpus.mkdir()
    for number, data in enumerate(_SEEDS[asked.target]()):
        (corpus / f"seed_{number}").write_bytes(data)
    asked.out.mkdir(parents=True, exist_ok=True)
    options = [
        f"-runs={asked.inputs}",
        f"-seed={asked.seed}",
        f"-timeout={_CLOCK_LIMIT_S}",
        "-rss_limit_mb=0",  # its own count begins with what the process that started it held
        f"-max_len={LONGEST_BYTES}",
        f"-artifact_prefix={asked.out}/",
        "-print_final_stats=1",
    ]
    arena, target = Arena(folder / "arena"), _TARGETS[asked.target]
    # What a sidecar unpacks to is changed; gzip would hide from the fuzzer what came of it.
    dress = _packed if asked.target == "sidecar" else bytes
    target.takes(dress(_SEEDS[asked.target]()[0]), arena.clear())  # what is made once is made now
    atheris.Setup(
        [sys.argv[0], *options, str(corpus)], lambda data: _feed(target, arena, dress(data))
    )
    resource.setrlimit(resource.RLIMIT_DATA, (MEMORY_MB << 20, MEMORY_MB << 20))
    atheris.Fuzz()


def _feed(target: Target, arena: Arena, data: bytes) -> None:
    work, began_s = arena.clear(), time.process_time()
    target.takes(data, work)
    assert time.process_time() - began_s < LIMIT_S, "took too long"
    assert arena.touched() == ""


def _packed(data: bytes) -> bytes:
    return gzip.compress(data, compresslevel=1)


def _asked(words: list[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz.guided", description=__doc__)
    parser.add_argument("target", choices=tuple(_TARGETS))
    parser.add_argument("--inputs", type=int, default=20_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out", type=Path, default=Path("fuzz_findings"))
    return parser.parse_args(words)


if __name__ == "__main__":
    main()
