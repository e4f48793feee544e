"""Make a synthetic recording: a clip and its truth beside it."""

from pathlib import Path

from baycue.synthetic.clip import Progress, render_clip
from baycue.synthetic.recipes import Recipe
from baycue.synthetic.truth_file import truth_of, write_truth


def make_recording(
    recipe: Recipe, folder: Path, progress: Progress | None = None, workers: int = 2
) -> Path:
    """Write ``<name>.mp4`` and ``<name>.truth.json`` into ``folder``; returns the clip's path.

    Raises OutputError if either exists already.
    """
    shot, motion = recipe.shot(), recipe.motion()
    clip = folder / f"{recipe.name}.mp4"
    write_truth(
        folder / f"{recipe.name}.truth.json", truth_of(recipe.name, recipe.shows, shot, motion)
    )
    render_clip(
        shot,
        motion.moment_at,
        motion.duration_s,
        clip,
        workers=workers,
        crf=recipe.crf,
        progress=progress,
    )
    return clip
