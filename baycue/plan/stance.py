"""Facts about student and camera that both plan and picture must agree on."""

from enum import Enum


class Handedness(Enum):
    """Which way round the golfer plays; a right-hander's lead side is the left."""

    RIGHT = "right"
    LEFT = "left"


class View(Enum):
    """Where the camera stands."""

    FACE_ON = "face-on"
    DOWN_THE_LINE = "down-the-line"
