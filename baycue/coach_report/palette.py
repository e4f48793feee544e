"""The page's colours, light and dark: told apart by any eye, and never by hue alone."""

from dataclasses import dataclass, fields

from baycue.cues.palette import GROUND, OUTCOME, QUIET, TEXT, Colour
from baycue.verdict.verdict import Outcome


@dataclass(frozen=True, slots=True)
class Theme:
    """``ink`` and ``quiet`` are for words, ``line`` and the rest for what is drawn.

    ``ground`` lies behind all; passes are discs, fails crosses, what is too close squares.
    """

    ground: str
    ink: str
    quiet: str
    line: str
    passed: str
    failed: str
    close: str
    bound: str


def _hex(colour: Colour) -> str:
    return "#{:02x}{:02x}{:02x}".format(*colour)


LIGHT = Theme(
    ground="#ffffff",
    ink="#1a1a1a",
    quiet="#56606c",
    line="#84909d",
    passed="#0a62a8",
    failed="#b84500",
    close="#6a6455",
    bound="#1a1a1a",
)
DARK = Theme(
    ground=_hex(GROUND),
    ink=_hex(TEXT),
    quiet=_hex(QUIET),
    line="#6c7886",
    passed=_hex(OUTCOME[Outcome.PASS]),
    failed=_hex(OUTCOME[Outcome.FAIL]),
    close=_hex(OUTCOME[Outcome.TOO_CLOSE]),
    bound=_hex(TEXT),
)
NAMES = tuple(field.name for field in fields(Theme))


def variables(theme: Theme) -> str:
    """The theme as CSS custom properties."""
    return " ".join(f"--{name}: {getattr(theme, name)};" for name in NAMES)


def placeholder(name: str) -> str:
    """A colour that a plot is drawn in, and that ``with_variables`` replaces."""
    return f"#0{NAMES.index(name) + 1}00ff"


def with_variables(svg: str) -> str:
    """A plot with the page's colours, which follow the reader's choice of light or dark."""
    for name in NAMES:
        svg = svg.replace(placeholder(name), f"var(--{name})")
    return svg
