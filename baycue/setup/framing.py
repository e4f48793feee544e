"""Is the whole golfer in the picture, with room for the club, near enough and in the middle?"""

import numpy as np

from baycue.pose.framing import BodyPart, parts_cut_off
from baycue.pose.pose import Landmark
from baycue.pose.presence import body_height_px, mid_hip
from baycue.setup.looked import Looked
from baycue.setup.report import Answer, SetUpRow

CLUB_ROOM_STATURES = 0.70
"""From mid-hip to the side that hands and a shaft parallel to the ground take, of stature:
an iron's about; common practice, no source."""

_HEADROOM_STATURES = 0.15
"""Above the nose, for hands at the top of the swing; common practice, no source."""

_SMALLEST, _SMALL, _LARGE, _LARGEST = 0.28, 0.34, 0.58, 0.68
"""Nose to ankles at address as a share of the picture's height."""
_NOSE_TO_ANKLE_AT_ADDRESS = 0.715
"""Of stature, down the picture: measured on rendered golfers of three builds, 0.713 to 0.717."""
_CENTRED, _ASKEW = 0.09, 0.12
"""Shares of the picture's width that mid-hip may be from the middle."""
_REMEDY = {
    BodyPart.FEET: "Tilt the camera down or move it back until both feet show.",
    BodyPart.HEAD: "Tilt the camera up or move it back until the head shows.",
    BodyPart.HANDS: "Move the camera back until the hands show.",
}


def whole_golfer(looked: Looked) -> SetUpRow:
    """Head, hands and feet in the picture."""
    cut = [parts_cut_off(p, *looked.size_px) for p in looked.poses]
    for part, remedy in _REMEDY.items():
        if np.mean([part in each for each in cut]) > 0.5:
            found = f"{part.value} cut off by the picture's edge"
            return SetUpRow("whole golfer", Answer.NO_GO, found, remedy)
    return SetUpRow("whole golfer", Answer.GO, "head, hands and feet show")


def distance(looked: Looked) -> SetUpRow:
    """How large the golfer is, and what that means in metres if the field of view is right."""
    share = float(np.median([body_height_px(p) for p in looked.poses])) / looked.size_px[1]
    metres = distance_m(looked, share)
    found = f"about {metres:.1f} m, {100 * share:.0f} % of the picture's height"
    if share < _SMALL:
        answer = Answer.NO_GO if share < _SMALLEST else Answer.UNSURE
        nearer = max(metres * (1 - share / 0.42), 0.1)
        return SetUpRow("distance", answer, found, f"Move the camera {nearer:.1f} m nearer.")
    if share > _LARGE:
        answer = Answer.NO_GO if share > _LARGEST else Answer.UNSURE
        back = max(metres * (share / 0.45 - 1), 0.1)
        return SetUpRow("distance", answer, found, f"Move the camera {back:.1f} m back.")
    return SetUpRow("distance", Answer.GO, found)


def distance_m(looked: Looked, height_share: float) -> float:
    """From camera to golfer, from stature and the plan's field of view; good to about a tenth."""
    width, height = looked.size_px
    half_view = np.radians(looked.plan.camera.horizontal_fov_deg) / 2
    focal_px = width / 2 / np.tan(half_view)
    tall_m = _NOSE_TO_ANKLE_AT_ADDRESS * looked.plan.stature_m
    return float(focal_px * tall_m / max(height_share * height, 1.0))


def club_room(looked: Looked) -> SetUpRow:
    """Room on both sides for a shaft parallel to the ground, and above for the hands."""
    if np.median([p.pixel(Landmark.NOSE)[1] for p in looked.poses]) < (
        _HEADROOM_STATURES * _px_per_stature(looked)
    ):
        found = "no room above the head for the hands"
        return SetUpRow("room for the club", Answer.NO_GO, found, "Tilt the camera up.")
    needed_px = CLUB_ROOM_STATURES * _px_per_stature(looked)
    across = _across_px(looked)
    short = {
        "left": needed_px - across,
        "right": needed_px - (looked.size_px[0] - across),
    }
    side, lacking = max(short.items(), key=lambda each: each[1])
    if lacking <= 0:
        return SetUpRow("room for the club", Answer.GO, "a shaft's length on both sides")
    found = f"{100 * lacking / needed_px:.0f} % of the club's room is missing on the {side}"
    if min(short.values()) > 0:
        return SetUpRow("room for the club", Answer.NO_GO, found, "Move the camera back.")
    return SetUpRow("room for the club", Answer.NO_GO, found, _turn_toward(side))


def centred(looked: Looked) -> SetUpRow:
    """The golfer roughly in the middle, for there a camera that is square sees square."""
    off = _across_px(looked) / looked.size_px[0] - 0.5
    side = "left" if off < 0 else "right"
    found = f"{100 * abs(off):.0f} % of the width {side} of the middle"
    if abs(off) <= _CENTRED:
        return SetUpRow("centred", Answer.GO, found)
    answer = Answer.NO_GO if abs(off) > _ASKEW else Answer.UNSURE
    return SetUpRow("centred", answer, found, _turn_toward(side))


def _turn_toward(side: str) -> str:
    """``side`` is the picture's, which is the side of who stands behind the camera."""
    return f"Turn the camera to the picture's {side}."


def _across_px(looked: Looked) -> float:
    return float(np.median([mid_hip(p)[0] for p in looked.poses]))


def _px_per_stature(looked: Looked) -> float:
    tall_px = float(np.median([body_height_px(p) for p in looked.poses]))
    return tall_px / _NOSE_TO_ANKLE_AT_ADDRESS
