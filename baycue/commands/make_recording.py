"""Make synthetic recordings, whose exact truth is written beside them."""

import os
from collections.abc import Sequence
from pathlib import Path

from rich.console import Console
from rich.table import Table

from baycue.commands.folders import refuse_unusable
from baycue.commands.progress import progress_bar
from baycue.errors import BaycueError, ExistsError, OutputError
from baycue.plan.words import guess
from baycue.synthetic.make_recording import make_recording
from baycue.synthetic.recipes import Recipe
from baycue.synthetic.sample_recipes import SAMPLES

_SUFFIXES = (".mp4", ".mp4.partial", ".truth.json")


def run_make_recording(name: str | None, everything: bool, folder: Path, console: Console) -> None:
    """List the recipes, or make one of them or all; raises BaycueError with one clear line."""
    recipes = chosen(name, everything)
    if not recipes:
        _list(console)
        return
    make_all(recipes, folder, console)


def make_all(recipes: Sequence[Recipe], folder: Path, console: Console) -> None:
    """Make recordings in a folder; OutputError, before any work, if one is there already."""
    refuse_unusable(folder)
    refuse_existing(recipes, folder)
    _make_folder(folder)
    for recipe in recipes:
        clip = _make(recipe, folder, console)
        console.print(f"Made {clip} and its truth, {recipe.name}.truth.json", soft_wrap=True)


def chosen(name: str | None, everything: bool) -> tuple[Recipe, ...]:
    """The recipes asked for; none if nothing was.  BaycueError for an unknown name."""
    if name and everything:
        raise BaycueError(f'"{name}" and --all: give a name or --all, not both')
    if everything:
        return SAMPLES
    found = tuple(recipe for recipe in SAMPLES if recipe.name == name)
    if name and not found:
        hint = guess(name, (recipe.name for recipe in SAMPLES))
        raise BaycueError(f'"{name}": no such recipe{hint}; "baycue make-recording" lists them')
    return found


def refuse_existing(recipes: Sequence[Recipe], folder: Path) -> None:
    """OutputError if any file to be made is there already: before the work, not after it."""
    for recipe in recipes:
        for suffix in _SUFFIXES:
            path = folder / f"{recipe.name}{suffix}"
            if path.exists():
                raise ExistsError(
                    f"{path}: exists already and is not overwritten; "
                    "name another folder with --out, or move it away"
                )


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise OutputError(
            f"{folder}: this folder cannot be made ({error.strerror}); name another with --out"
        ) from None


def _make(recipe: Recipe, folder: Path, console: Console) -> Path:
    with progress_bar(console) as bar:
        task = bar.add_task(f"rendering {recipe.name}", total=None)
        return make_recording(
            recipe,
            folder,
            lambda done, of: bar.update(task, completed=done, total=of),
            workers=os.cpu_count() or 1,
        )


def _list(console: Console) -> None:
    table = Table("recipe", "what it shows", box=None, pad_edge=False)
    for recipe in SAMPLES:
        table.add_row(recipe.name, recipe.shows)
    console.print("Recordings that can be made; every golfer and number is invented.\n")
    console.print(table)
    console.print("\nbaycue make-recording NAME --out FOLDER makes one, --all makes every one.")
