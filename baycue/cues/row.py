"""One target's row on the big screen: shape, name and bound, value and margin."""

from dataclasses import dataclass, replace

from baycue.cues.canvas import Canvas
from baycue.cues.letters import DESCENDER, Letters, letters_of
from baycue.cues.palette import GROUND, OUTCOME, QUIET, TEXT, Colour
from baycue.cues.shapes import outcome_shape
from baycue.cues.sizes import Columns, Sizes
from baycue.verdict.verdict import Outcome, TargetVerdict

_GAP = 0.5
"""Space between two blocks, beyond the upper one's descenders, in capitals of the lower one."""


@dataclass(frozen=True, slots=True)
class Block:
    """Lines of one size and colour; ``top`` is from the row's own top, px."""

    text: list[str]
    letters: Letters
    colour: Colour
    must_read: bool
    left: float = 0.0
    top: float = 0.0
    right_aligned: bool = False

    @property
    def height(self) -> float:
        """From the first capitals' top to the last capitals' foot."""
        return self.letters.height_px(len(self.text))

    @property
    def width(self) -> int:
        """Of the longest line."""
        return max(self.letters.width_px(line) for line in self.text)


@dataclass(frozen=True, slots=True)
class Row:
    """A target's answer, set in lines that know their place."""

    outcome: Outcome
    blocks: tuple[Block, ...]
    shape_px: int

    @property
    def height_px(self) -> float:
        """From the topmost capitals to the lowest ones' foot."""
        return max(block.top + block.height for block in self.blocks)


def set_row(
    answer: TargetVerdict, sizes: Sizes, unit_px: float, columns: Columns, with_cue: bool
) -> Row:
    """Break a target's words into lines between the edges given."""
    title, value, margin, detail = (
        letters_of(max(round(size * unit_px), 1))
        for size in (sizes.title, sizes.value, sizes.margin, sizes.detail)
    )
    figures = _figures(answer, value, margin)
    room = columns.text_width
    if not sizes.stacked:
        figures = [_wrapped(block, 0.55 * room) for block in figures]
        room -= max(block.width for block in figures) + 0.6 * unit_px
    name = _wrapped(Block([answer.target_name], title, TEXT, True), room)
    details = [_wrapped(Block([t], detail, QUIET, False), room) for t in _details(answer, with_cue)]
    arrange = _stacked if sizes.stacked else _beside
    return Row(answer.outcome, arrange(name, figures, details, columns), round(1.6 * title.cap_px))


def draw_row(canvas: Canvas, row: Row, columns: Columns, middle_px: float) -> None:
    """Draw a row about a middle line."""
    shape = outcome_shape(row.outcome, row.shape_px, OUTCOME[row.outcome], GROUND)
    shape_left = columns.shape + (columns.shape_width - row.shape_px) / 2
    canvas.surface.blit(shape, (round(shape_left), round(middle_px - row.shape_px / 2)))
    top = middle_px - row.height_px / 2
    for b in row.blocks:
        canvas.put(b.text, b.letters, b.colour, b.left, top + b.top, b.must_read, b.right_aligned)


def _figures(answer: TargetVerdict, value: Letters, margin: Letters) -> list[Block]:
    if answer.said is None:
        return [Block(["not measured"], margin, QUIET, True)]
    colour = OUTCOME[answer.outcome]
    return [
        Block([answer.said.value], value, colour, True),
        Block([answer.said.margin_and_end], margin, colour, True),
    ]


def _details(answer: TargetVerdict, with_cue: bool) -> list[str]:
    """The coach's phrase where the target was not met, and the figures behind the answer."""
    cue = answer.cue if with_cue and answer.outcome is not Outcome.PASS else ""
    if answer.said is None:
        told = answer.reason.removeprefix(f"{answer.target_name}: ")
        figures = told.removeprefix("not measured").removeprefix(": ")
    else:
        figures = f"{answer.said.bound}, give or take {answer.said.give_or_take}"
    if answer.watch_only:
        figures = f"watched: {figures}"
    return [text for text in (cue, figures) if text]


def _wrapped(block: Block, width_px: float) -> Block:
    return replace(block, text=block.letters.wrap(" ".join(block.text), width_px))


def _beside(
    name: Block, figures: list[Block], details: list[Block], columns: Columns
) -> tuple[Block, ...]:
    """Name and details at the left, figures at the right, each about the same middle."""
    left = _column([name, *details], columns.text, False)
    right = _column(figures, columns.right, True)
    heights = [column[-1].top + column[-1].height for column in (left, right)]
    lower = [max(heights) / 2 - height / 2 for height in heights]
    return tuple(
        replace(block, top=block.top + down)
        for column, down in zip((left, right), lower, strict=True)
        for block in column
    )


def _stacked(
    name: Block, figures: list[Block], details: list[Block], columns: Columns
) -> tuple[Block, ...]:
    """Name, then value and margin on one foot line, then details."""
    figures = [_wrapped(block, columns.text_width) for block in figures]
    first, *rest = figures
    gap = 0.9 * first.letters.cap_px
    if not rest or first.width + gap + rest[0].width > columns.text_width:
        return tuple(_column([name, *figures, *details], columns.text, False))
    column = _column([name, first, *details], columns.text, False)
    foot = column[1].top + first.height
    margin = replace(rest[0], left=columns.text + first.width + gap, top=foot - rest[0].height)
    return (*column, margin)


def _column(blocks: list[Block], edge: float, right_aligned: bool) -> list[Block]:
    placed: list[Block] = []
    top = 0.0
    for block in blocks:
        placed.append(replace(block, left=edge, top=top, right_aligned=right_aligned))
        top += block.height + DESCENDER * block.letters.cap_px
        top += _GAP * blocks[min(len(placed), len(blocks) - 1)].letters.cap_px
    return placed
