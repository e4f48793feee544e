"""How large the big screen's letters are, and where its columns stand."""

from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Sizes:
    """Cap heights in units of the preferred letter height; ``band`` is the top band's height.

    ``stacked`` rows have their figures under the name, others beside it.
    """

    title: float
    value: float
    margin: float
    detail: float
    band: float
    stacked: bool = False

    def scaled(self, factor: float) -> "Sizes":
        """All of them larger or smaller."""
        sizes = {name: factor * getattr(self, name) for name in ("title", "value", "margin")}
        return replace(self, detail=factor * self.detail, band=factor * self.band, **sizes)

    @property
    def want_of_legibility(self) -> tuple[float, float]:
        """How far figures, then names, fall short of the preferred height."""
        return max(1 - min(self.value, self.margin), 0.0), max(1 - self.title, 0.0)

    def least_height(self, rows: int) -> float:
        """Less than which no page with so many rows can be, whatever their words."""
        row = max(self.title, self.value) if not self.stacked else self.title + self.value
        return self.band + rows * (row + self.detail)


@dataclass(frozen=True, slots=True)
class Columns:
    """Left edges of shapes and text, and the right edge, px; rows line up with the band."""

    shape: float
    shape_width: float
    text: float
    right: float

    @property
    def text_width(self) -> float:
        """From the text's left edge to the right edge."""
        return self.right - self.text
