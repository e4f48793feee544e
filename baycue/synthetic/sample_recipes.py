"""The recipes behind ``sample_recordings/``: people and numbers are invented."""

from baycue.plan.stance import Handedness, View
from baycue.synthetic.camera import Camera
from baycue.synthetic.recipes import FIRST, FOURTH, SECOND, THIRD, Recipe
from baycue.synthetic.swing_style import SwingStyle

_GOOD = SwingStyle(knee_past_ankle_at_p6_m=0.075)
_SHORT_KNEE = SwingStyle(knee_past_ankle_at_p6_m=0.0)


def _face_on(
    distance_m: float = 3.6,
    height_m: float = 0.95,
    yaw_deg: float = 0.0,
    tilt_deg: float = 0.0,
    handedness: Handedness = Handedness.RIGHT,
) -> Camera:
    return Camera(
        distance_m=distance_m,
        height_m=height_m,
        yaw_deg=yaw_deg,
        tilt_deg=tilt_deg,
        field_of_view_deg=70.0,
        handedness=handedness,
    )


SAMPLES = (
    Recipe(
        "knee_pass_30fps",
        "Lead knee 7.5 cm past the lead ankle when the shaft is parallel coming down.",
        swings=(_GOOD,),
    ),
    Recipe(
        "knee_fail_30fps",
        "The same golfer, lead knee just over the ankle: 7.5 cm short of the clip above.",
        swings=(_SHORT_KNEE,),
    ),
    Recipe(
        "head_rise_30fps",
        "The knee gets there, but the head comes up 7 cm by impact.",
        golfer=FOURTH,
        swings=(
            SwingStyle(
                knee_past_ankle_at_p6_m=0.07,
                head_rise_at_impact_m=0.07,
                backswing_s=0.76,
                downswing_s=0.25,
            ),
        ),
        camera=_face_on(distance_m=3.7, tilt_deg=1.0),
        bay="cluttered",
    ),
    Recipe(
        "slow_shutter_30fps",
        "A dim bay and a 1/60 s shutter: the shaft all but vanishes on the way down.",
        swings=(SwingStyle(knee_past_ankle_at_p6_m=0.06, backswing_s=0.84, downswing_s=0.28),),
        camera=_face_on(yaw_deg=1.5),
        bay="dim",
        shutter_s=1 / 60,
        crf=24,
    ),
    Recipe(
        "left_handed_30fps",
        "A left-hander whose knee gets there.",
        golfer=SECOND,
        swings=(SwingStyle(knee_past_ankle_at_p6_m=0.065, backswing_s=0.86, downswing_s=0.28),),
        camera=_face_on(distance_m=3.3, handedness=Handedness.LEFT),
        bay="cluttered",
    ),
    Recipe(
        "mirrored_30fps",
        "A right-hander through a webcam that flips its picture; knee short, early release.",
        golfer=THIRD,
        swings=(
            SwingStyle(
                knee_past_ankle_at_p6_m=-0.02,
                release="early",
                backswing_s=0.88,
                downswing_s=0.29,
                sway_m=0.05,
            ),
        ),
        mirrored=True,
    ),
    Recipe(
        "driver_30fps",
        "A heavier golfer with a driver, the camera a little askew.",
        golfer=THIRD,
        swings=(
            SwingStyle(
                club="driver",
                knee_past_ankle_at_p6_m=0.05,
                backswing_s=0.85,
                downswing_s=0.27,
            ),
        ),
        camera=_face_on(distance_m=3.9, height_m=1.0, yaw_deg=-2.0, tilt_deg=1.5),
        bay="cluttered",
    ),
    Recipe(
        "wedge_60fps",
        "A wedge at 60 frames a second, late release; the knee gets there.",
        golfer=SECOND,
        swings=(
            SwingStyle(
                club="wedge",
                knee_past_ankle_at_p6_m=0.07,
                release="late",
                backswing_s=0.78,
                downswing_s=0.27,
            ),
        ),
        camera=_face_on(distance_m=3.4),
        fps=60.0,
        shutter_s=1 / 240,
    ),
    Recipe(
        "knee_fail_120fps",
        "120 frames a second and a short shutter; the knee stays 3 cm behind the ankle.",
        golfer=FOURTH,
        swings=(
            SwingStyle(
                knee_past_ankle_at_p6_m=-0.03,
                still_s=0.7,
                backswing_s=0.76,
                downswing_s=0.25,
                hold_s=0.6,
            ),
        ),
        camera=_face_on(distance_m=3.7),
        fps=120.0,
        shutter_s=1 / 480,
        crf=24,
    ),
    Recipe(
        "down_the_line_30fps",
        "Seen along the target line; the hands are pushed out going back.",
        swings=(SwingStyle(knee_past_ankle_at_p6_m=0.06, hands_out_m=0.05),),
        camera=Camera(
            view=View.DOWN_THE_LINE,
            distance_m=3.4,
            height_m=1.05,
            aside_m=0.3,
            field_of_view_deg=70.0,
        ),
    ),
    Recipe(
        "two_swings_30fps",
        "Two swings in one take: the knee misses first, then gets there.",
        swings=(_SHORT_KNEE, _GOOD),
        bay="cluttered",
        crf=21,
    ),
    Recipe(
        "no_swing_30fps",
        "No swing: waggles, a practice stop half-way back, and someone walking by.",
        golfer=FIRST,
        idle=("waggles", "practice stop"),
        walker=SECOND,
        bay="cluttered",
        crf=21,
    ),
    Recipe(
        "tee_and_rehearsal_30fps",
        "No swing: a ball is teed, then two slow rehearsals that never reach the top.",
        golfer=THIRD,
        idle=("tee", "rehearsal"),
        crf=21,
    ),
)


def sample(name: str) -> Recipe:
    """The recipe of that name.

    Raises ValueError, naming those there are, if there is none.
    """
    for recipe in SAMPLES:
        if recipe.name == name:
            return recipe
    raise ValueError(f"no recipe {name!r}; there are {', '.join(r.name for r in SAMPLES)}")
