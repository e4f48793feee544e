"""What a coach may say of scale and lens."""

from enum import Enum


class ScaleBy(Enum):
    """What tells metres in the picture."""

    STATURE = "stature"
    STICK = "stick"
    BOARD = "board"


class Lens(Enum):
    """How a straight doorpost near the picture's side looks: straight, a little bowed, bowed.

    ``bow``: how much nearer the middle a point half a picture's width from it appears, as a
    share; what each word stands for is common practice, no source.
    """

    NORMAL = ("normal", 0.0)
    WIDE = ("wide", 0.05)
    FISHEYE = ("fisheye", 0.20)

    bow: float

    def __new__(cls, word: str, bow: float) -> "Lens":
        """A member whose value is its word alone."""
        member = object.__new__(cls)
        member._value_ = word
        member.bow = bow
        return member
