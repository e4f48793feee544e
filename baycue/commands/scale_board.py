"""Write the scale board to be printed."""

from pathlib import Path

from rich.console import Console

from baycue.bay.board_page import Paper, as_pdf, as_png, board_page
from baycue.commands.folders import refuse_unusable, refuse_unwritable
from baycue.errors import BaycueError, OutputError
from baycue.plan.words import guess


def run_scale_board(paper_name: str, folder: Path, console: Console) -> None:
    """Write ``scale_board_A4.pdf`` and ``.png``; OutputError if either is there already."""
    paper = _paper(paper_name)
    refuse_unusable(folder)
    files = [folder / f"scale_board_{paper.sign}.{ending}" for ending in ("pdf", "png")]
    _make_folder(folder)
    for file in files:
        refuse_unwritable(file)
    page = board_page(paper)
    for file, data in zip(files, (as_pdf(page, paper), as_png(page)), strict=True):
        with file.open("xb") as new:
            new.write(data)
    console.print(f"Written: {files[0]} and {files[1]}", soft_wrap=True)
    console.print(
        "Print at 100 % and measure the line: 100 mm. Nothing may stand where the club or the "
        "ball passes.",
        soft_wrap=True,
    )


def _paper(name: str) -> Paper:
    for paper in Paper:
        if paper.sign.lower() == name.strip().lower():
            return paper
    signs = [paper.sign for paper in Paper]
    raise BaycueError(
        f'"{name}" is no paper known here; allowed: {", ".join(signs)}{guess(name, signs)}'
    )


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise OutputError(
            f"{folder}: this folder cannot be made ({error.strerror}); name another with --out"
        ) from None
