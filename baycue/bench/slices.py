"""The slices of the population that figures are given for."""

from collections.abc import Callable
from dataclasses import dataclass

from baycue.bench.framing import round_the_golfer_deg
from baycue.bench.population import FPS_SHARES, Draw
from baycue.synthetic.bay import BAYS
from baycue.synthetic.body import BODY_NAMES
from baycue.synthetic.club_physics import CLUBS
from baycue.synthetic.oddity import NO_ODDITY, ODD_KINDS
from baycue.synthetic.swing_style import RELEASE_ARM_DEG


@dataclass(frozen=True, slots=True)
class Slice:
    """Some of the draws, by a name."""

    name: str
    holds: Callable[[Draw], bool]


def _of(name: str, value: object, read: Callable[[Draw], object]) -> Slice:
    return Slice(name, lambda draw: read(draw) == value)


def _split(below: str, above: str, limit: float, read: Callable[[Draw], float]) -> list[Slice]:
    """Up to a limit and beyond it."""
    return [Slice(below, lambda d: read(d) <= limit), Slice(above, lambda d: read(d) > limit)]


EVERY = Slice("all swings", lambda _: True)
BY_FPS = tuple(_of(f"{fps:g} fps", fps, lambda d: d.fps) for fps in FPS_SHARES)
BY_YAW = tuple(
    _split("yaw to 5 deg", "yaw 5 to 10 deg", 5.0, lambda d: abs(d.camera.yaw_deg))
    + _split(
        "camera to 5 deg round the golfer",
        "camera 5 to 10 deg round",
        5.0,
        lambda d: abs(round_the_golfer_deg(d.camera)),
    )
)
BY_BODY = tuple(_of(n.replace("_", " "), n, lambda d: d.golfer.body) for n in BODY_NAMES)
DEMANDED = (EVERY, *BY_FPS, *BY_YAW, *BY_BODY)
"""Where the project's own goals must hold one by one."""

BY_MAKE = (
    _of("two-link swings", NO_ODDITY, lambda d: d.style.oddity),
    Slice("swings of other makes", lambda d: d.style.oddity != NO_ODDITY),
    *(_of(f"{kind.value}", kind, lambda d: d.style.oddity.kind) for kind in ODD_KINDS),
)
"""The model that draws the swings, and those that the model does not make."""

OTHERS = (
    *BY_MAKE,
    *_split("roll to 1 deg", "roll over 1 deg", 1.0, lambda d: abs(d.camera.roll_deg)),
    *_split("tilt to 2.5 deg", "tilt over 2.5 deg", 2.5, lambda d: abs(d.camera.tilt_deg)),
    *_split("shutter to 1/200 s", "shutter over 1/200 s", 1 / 200, lambda d: d.shutter_s),
    *_split("camera to 3.75 m", "camera over 3.75 m", 3.75, lambda d: d.camera.distance_m),
    *_split(
        "field of view 55 to 72 deg",
        "field of view over 72 deg",
        72.0,
        lambda d: d.camera.field_of_view_deg,
    ),
    Slice("field of view stated", lambda d: d.stated_fov_deg is not None),
    Slice("field of view not known", lambda d: d.stated_fov_deg is None),
    *(_of(f"{bay} bay", bay, lambda d: d.bay) for bay in BAYS),
    *(_of(f"{club}", club, lambda d: d.style.club) for club in CLUBS),
    *(_of(f"{name} release", name, lambda d: d.style.release) for name in RELEASE_ARM_DEG),
    *_split("tempo to 3", "tempo over 3", 3.0, lambda d: d.style.backswing_s / d.style.downswing_s),
    _of("bright shaft", True, lambda d: d.bright_shaft),
    _of("dark shaft", False, lambda d: d.bright_shaft),
    _of("right-handed", "right", lambda d: d.camera.handedness.value),
    _of("left-handed", "left", lambda d: d.camera.handedness.value),
    _of("mirrored", True, lambda d: d.mirrored),
    _of("not mirrored", False, lambda d: d.mirrored),
    Slice("somebody walks by", lambda d: d.walker is not None),
    Slice("nobody walks by", lambda d: d.walker is None),
)
ALL_SLICES = (*DEMANDED, *OTHERS)
