"""The screen's few colours: light on near-black, told apart by any eye and never by hue alone."""

from baycue.verdict.verdict import Outcome

Colour = tuple[int, int, int]

GROUND: Colour = (16, 21, 28)
TEXT: Colour = (244, 242, 236)
QUIET: Colour = (172, 181, 192)
RULE: Colour = (58, 68, 80)
CALM: Colour = (200, 208, 218)
PANEL: Colour = (34, 42, 52)

OUTCOME: dict[Outcome, Colour] = {
    Outcome.PASS: (70, 178, 255),
    Outcome.FAIL: (255, 140, 40),
    Outcome.TOO_CLOSE: (236, 230, 214),
}
