"""Plans: the examples with slips, shuffles and things that no editor should have saved."""

from functools import cache
from pathlib import Path
from random import Random

from baycue.measures.figures import Figures, read_figures
from baycue.plan.cautions import cautions
from baycue.plan.file import LARGEST_FILE_BYTES, plan_text
from baycue.plan.load import parse_with_lines
from tests.fuzz.damage import damaged
from tests.fuzz.target import Target
from tests.fuzz.words import HOSTILE_WORDS

_CONFIGS = Path(__file__).parent.parent.parent / "configs"
_TOKENS = (
    *("  ", "\t", "- ", ": ", "? ", "&a ", "*a", "!!int ", "!!binary ", "{", "}", "[", "]", ","),
    *("|\n", ">\n", "'", '"', "#", "---\n", "...\n", "<<: ", "%YAML 1.1\n", "\ufeff", "\x85"),
    *("nan", "-0", "1e309", "-inf", "9" * 400, "0x10", "1_000", "5 cm", "5cm", "-3 in", "90 deg"),
    *("at: P6", "from: top", "between: [1 cm, 0 cm]", "largest_between: [P6, P2]", "targets:"),
    *("practice:", "blocks:", "drills:", "seed: -1", "hold: 2 s", "count: 999999999", "\u2028"),
)


def draw(random: Random) -> bytes:
    """Three in four keep the look of a plan; the rest is damaged bytes, or too much of a thing."""
    kind = random.random()
    if kind < 0.75:
        return slipped(random.choice(examples()), random).encode("utf-8", "surrogatepass")
    if kind < 0.98:
        return damaged(random.choice(examples()).encode(), random)
    part = random.choice((*_TOKENS, "- a\n", "a,", "[" * 40, "a: {b: ", "- - "))
    return (part * random.randint(1, LARGEST_FILE_BYTES // len(part))).encode()


def slipped(text: str, random: Random) -> str:
    """A plan with a few lines moved, changed or mistyped."""
    lines = text.splitlines(keepends=True)
    for _ in range(random.choice((1, 1, 2, 4))):
        at = random.randrange(len(lines))
        lines[at] = _slip(lines, at, random)
    return "".join(lines)


def _slip(lines: list[str], at: int, random: Random) -> str:
    line, other = lines[at], random.choice(lines)
    spot = random.randint(0, len(line))
    word = random.choice((*_TOKENS, *HOSTILE_WORDS))
    key, _, value = line.partition(":")
    return random.choice(
        (
            "",
            line + line,
            line + other,
            other,
            f"{key}: {word}\n",
            f"{word}:{value}",
            " " * random.randint(1, 6) + line,
            line.lstrip(),
            line[:spot] + word + line[spot:],
            line[:spot] + line[spot + 1 :],
            line[:spot] + chr(random.randrange(1, 0x3000)) + line[spot:],
        )
    )


def feed(data: bytes, folder: Path) -> None:
    """Load it from a file, and ask for the cautions of one that is right."""
    path = folder / "plan.yaml"
    path.write_bytes(data)
    plan, document = parse_with_lines(plan_text(path), str(path))
    cautions(plan, document, 60, known_figures().figures)


@cache
def known_figures() -> Figures:
    """Every measure's error; reading them is not what is tried here."""
    return read_figures()


@cache
def examples() -> tuple[str, ...]:
    """Every plan that comes with the project."""
    return tuple(p.read_text(encoding="utf-8") for p in sorted(_CONFIGS.glob("*.yaml")))


TARGET = Target("plan", 0.80, draw, feed)
