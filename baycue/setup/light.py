"""Is there light enough, and are there frames enough?"""

from itertools import pairwise

import numpy as np

from baycue.setup.looked import Looked, frame_gaps_ns, frames_per_second
from baycue.setup.report import Answer, SetUpRow

_DARK, _DIM, _GLARING = 30.0, 50.0, 225.0
"""Mean grey of the golfer, 0 to 255."""
_NOISY = 6.0
"""One-sigma of the small grey picture between frames, grey levels."""
_TOO_SLOW, _SLOW = 23.5, 50.0
_SLOW_FRAME = 1.6
"""A frame that took this many median gaps was late or lost."""


def light(looked: Looked) -> SetUpRow:
    """How bright the golfer is, and how noisy the picture."""
    mean, noise = golfer_grey(looked), picture_noise(looked)
    found = f"golfer {mean:.0f} of 255, noise {noise:.1f}"
    if mean > _GLARING:
        return SetUpRow("light", Answer.NO_GO, found, "Less light, or a darker exposure.")
    if mean < _DARK:
        return SetUpRow("light", Answer.NO_GO, found, "More light on the golfer, from the front.")
    if mean < _DIM or noise > _NOISY:
        return SetUpRow("light", Answer.UNSURE, found, "More light on the golfer helps.")
    return SetUpRow("light", Answer.GO, found)


def golfer_grey(looked: Looked) -> float:
    """Mean grey inside the golfer's box."""
    left, top, right, bottom = (max(int(edge), 0) for edge in looked.golfer_box())
    part = looked.greys[-1][top : bottom + 1, left : right + 1]
    return float(part.mean()) if part.size else 0.0


def picture_noise(looked: Looked) -> float:
    """One-sigma between frames of what stands still, grey levels; 0 for a single picture."""
    greys = [grey.astype(np.float32) for grey in looked.greys[-8:]]
    steps = [np.abs(b - a) for a, b in pairwise(greys)]
    if not steps:
        return 0.0
    # Half of all pixels stand still whatever moves; a median of whole levels is too coarse.
    still = [step[step <= np.median(step) + 3] for step in steps]
    return float(np.median([np.sqrt((step**2).mean() / 2) for step in still]))


def frame_rate(looked: Looked) -> SetUpRow:
    """Frames a second as they came."""
    rate = frames_per_second(looked.seen)
    if rate is None:
        return SetUpRow("frame rate", Answer.UNSURE, "too few frames yet")
    gaps = frame_gaps_ns(looked.seen)
    late = float(np.mean(np.array(gaps) > _SLOW_FRAME * np.median(gaps)))
    found = f"{rate:.0f} a second" + (f", {100 * late:.0f} % late" if late > 0.02 else "")
    if rate < _TOO_SLOW:
        do = "Set the camera to 30 frames or more; more light lets it."
        return SetUpRow("frame rate", Answer.NO_GO, found, do)
    if late > 0.1:
        return SetUpRow("frame rate", Answer.UNSURE, found, "Close other programs.")
    wide = "" if rate >= _SLOW else "; 60 show the club better"
    return SetUpRow("frame rate", Answer.GO, found + wide)


def shutter() -> SetUpRow:
    """No stamp tells the exposure, and a golfer who holds still leaves no smear to read."""
    return SetUpRow(
        "shutter",
        Answer.UNSURE,
        "cannot be read from a golfer at rest",
        "If the club smears, set 1/250 s or less.",
    )
