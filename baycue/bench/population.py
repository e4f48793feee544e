"""A random population of synthetic swings, each drawn from a seed and its number.

Ranges are what a practice bay and a coach's students may bring (common practice, no source).
Everything is drawn evenly over its range, unless a line here says otherwise.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from math import exp, log

import numpy as np

from baycue.bench.framing import placed
from baycue.plan.stance import Handedness, View
from baycue.synthetic.bay import BAYS
from baycue.synthetic.body import BODY_NAMES
from baycue.synthetic.camera import Camera
from baycue.synthetic.clothes import COLOURWAYS
from baycue.synthetic.club_physics import CLUBS
from baycue.synthetic.oddity import NO_ODDITY, ODD_KINDS, Oddity, OddKind
from baycue.synthetic.props import DRIVER, GRAPHITE_IRON, STEEL_IRON, ClubLook
from baycue.synthetic.recipes import Golfer
from baycue.synthetic.swing_style import RELEASE_ARM_DEG, SwingStyle

FPS_SHARES = {30.0: 0.5, 60.0: 0.3, 120.0: 0.2}
SHORT_FPS_SHARES = {30.0: 1.0}
STATURE_M = (1.50, 1.95)
KNEE_M = (-0.08, 0.10)
SHUTTER_S = (1 / 1000, 1 / 50)
ROLL_MOST_DEG = 5.0
WALKER_SHARE = 0.25
STATURE_SIGMA_M = 0.01
STILL_S, HOLD_S = 0.9, 0.1
ODD_SHARE, ODD_LEAST = 0.35, 0.5
_ODD_STREAM = 77
"""Oddities have chances of their own: the rest of a swing is as it was before there were any."""
_WRIST_RELEASES = {
    OddKind.DRIVEN_WRIST: "normal",
    OddKind.LATE_WRIST: "normal",
    OddKind.CAST: "early",
}

_BRIGHT_DRIVER = ClubLook(
    STEEL_IRON.shaft,
    STEEL_IRON.gloss,
    DRIVER.grip,
    DRIVER.head,
    DRIVER.head_size_m,
    DRIVER.lie_deg,
    DRIVER.rounded,
)


@dataclass(frozen=True, slots=True)
class Walker:
    """Somebody walking by behind; negative speed walks to -x."""

    person: Golfer
    z_m: float
    from_x_m: float
    speed_m_s: float
    start_s: float


@dataclass(frozen=True, slots=True)
class Draw:
    """One swing of the population: who, how, seen by what, and what the coach's plan says.

    ``stated_stature_m`` is the stature as the plan has it, about a centimetre off;
    ``stated_fov_deg`` is None where the coach does not know the camera's field of view.
    """

    seed: int
    number: int
    golfer: Golfer
    style: SwingStyle
    camera: Camera
    bay: str
    light_level: float
    fps: float
    shutter_s: float
    mirrored: bool
    bright_shaft: bool
    walker: Walker | None
    stated_stature_m: float
    stated_fov_deg: float | None


def draw(
    seed: int,
    number: int,
    fps_shares: Mapping[float, float] = FPS_SHARES,
    view: View = View.FACE_ON,
) -> Draw:
    """The swing of that number in the population of that seed: always the same one."""
    rng = np.random.default_rng([seed, number])
    style, bright = _with_oddity(_style(rng), odd(seed, number)), _chance(rng, 0.5)
    golfer = _golfer(rng, _club_look(style.club, bright))
    handedness = Handedness.LEFT if _chance(rng, 0.5) else Handedness.RIGHT
    camera = placed(rng, golfer.stature_m, handedness, ROLL_MOST_DEG, view)
    fps = float(rng.choice(list(fps_shares), p=list(fps_shares.values())))
    return Draw(
        seed=seed,
        number=number,
        golfer=golfer,
        style=style,
        camera=camera,
        bay=_one_of(rng, BAYS),
        light_level=_even(rng, 0.6, 1.35),
        fps=fps,
        shutter_s=_shutter_s(rng, fps),
        mirrored=_chance(rng, 0.5),
        bright_shaft=bright,
        walker=_walker(rng) if _chance(rng, WALKER_SHARE) else None,
        stated_stature_m=round(golfer.stature_m + float(rng.normal(0, STATURE_SIGMA_M)), 2),
        stated_fov_deg=round(camera.field_of_view_deg) if _chance(rng, 0.5) else None,
    )


def _style(rng: np.random.Generator) -> SwingStyle:
    """A swing, good or faulty; every third has an early or a late release."""
    return SwingStyle(
        club=_one_of(rng, CLUBS),
        knee_past_ankle_at_p6_m=_even(rng, *KNEE_M),
        head_rise_at_impact_m=_even(rng, -0.03, 0.07),
        release=str(rng.choice(list(RELEASE_ARM_DEG), p=[1 / 6, 2 / 3, 1 / 6])),
        sway_m=_even(rng, 0.0, 0.05),
        hands_out_m=_even(rng, -0.05, 0.05),
        pelvis_drop_m=_even(rng, 0.0, 0.04),
        still_s=STILL_S,
        backswing_s=_even(rng, 0.70, 0.95),
        downswing_s=_even(rng, 0.23, 0.31),
        hold_s=HOLD_S,
    )


def odd(seed: int, number: int) -> Oddity:
    """What is odd about a swing: about a third are, all kinds and both ways as often."""
    rng = np.random.default_rng([seed, number, _ODD_STREAM])
    if not _chance(rng, ODD_SHARE):
        return NO_ODDITY
    way = 1.0 if _chance(rng, 0.5) else -1.0
    return Oddity(OddKind(_one_of(rng, ODD_KINDS)), way * _even(rng, ODD_LEAST, 1.0))


def _with_oddity(style: SwingStyle, oddity: Oddity) -> SwingStyle:
    """Where the wrist is odd, the release is named for what it then is."""
    release = _WRIST_RELEASES.get(oddity.kind, style.release)
    return replace(style, oddity=oddity, release=release)


def _golfer(rng: np.random.Generator, look: ClubLook) -> Golfer:
    return Golfer(
        _one_of(rng, BODY_NAMES), round(_even(rng, *STATURE_M), 3), _one_of(rng, COLOURWAYS), look
    )


def _club_look(club: str, bright: bool) -> ClubLook:
    if club == "driver":
        return _BRIGHT_DRIVER if bright else DRIVER
    return STEEL_IRON if bright else GRAPHITE_IRON


def _shutter_s(rng: np.random.Generator, fps: float) -> float:
    """Evenly in the logarithm; a shutter is never open for longer than a frame lasts."""
    shortest_s, longest_s = SHUTTER_S
    return exp(_even(rng, log(shortest_s), log(min(longest_s, 1 / fps))))


def _walker(rng: np.random.Generator) -> Walker:
    forward = 1.0 if _chance(rng, 0.5) else -1.0
    return Walker(
        person=_golfer(rng, STEEL_IRON),
        z_m=_even(rng, -2.3, -1.4),
        from_x_m=-forward * _even(rng, 1.5, 3.5),
        speed_m_s=forward * _even(rng, 0.9, 1.5),
        start_s=0.0,
    )


def _even(rng: np.random.Generator, low: float, high: float) -> float:
    return float(rng.uniform(low, high))


def _chance(rng: np.random.Generator, share: float) -> bool:
    return bool(rng.random() < share)


def _one_of(rng: np.random.Generator, names: Iterable[str]) -> str:
    return str(rng.choice(list(names)))
