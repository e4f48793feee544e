"""All the checks on what was looked at, and the watch that gathers it."""

from dataclasses import dataclass, replace

from baycue.glimpse import Glimpse
from baycue.plan.plan import Plan
from baycue.pose.bystanders import Person, share_with_company
from baycue.setup.aim import level, square
from baycue.setup.framing import centred, club_room, distance, whole_golfer
from baycue.setup.light import frame_rate, light, shutter
from baycue.setup.looked import Looked
from baycue.setup.report import Answer, SetUpReport, SetUpRow
from baycue.setup.way_round import handedness, mirroring

WATCH_NS = 3_000_000_000
_ENOUGH_NS = 1_000_000_000
_FEWEST_POSES = 8
_MOSTLY = 0.5

_CHECKS = (
    whole_golfer,
    distance,
    centred,
    club_room,
    level,
    square,
    handedness,
    mirroring,
    light,
    frame_rate,
)


@dataclass(frozen=True, slots=True)
class SetUpExtras:
    """What glimpses do not tell; None for what nobody looked at.

    ``people``: who is in each of a few sampled frames, the golfer first.  ``sound_heard``:
    the golfer's word, or the microphone's.
    """

    people: tuple[tuple[Person, ...], ...] | None = None
    sound_heard: bool | None = None


@dataclass(frozen=True, slots=True)
class SetUpWatch:
    """Gathers the last seconds before the camera; start with ``SetUpWatch()``."""

    seen: tuple[Glimpse, ...] = ()

    def after(self, glimpse: Glimpse) -> "SetUpWatch":
        """The watch after one more frame."""
        since = glimpse.stamp_ns - WATCH_NS
        return replace(self, seen=(*(g for g in self.seen if g.stamp_ns >= since), glimpse))

    @property
    def has_enough(self) -> bool:
        """Whether a second was seen of a golfer, or the whole watch of nobody."""
        if not self.seen:
            return False
        golfer = [g.stamp_ns for g in self.seen if g.pose]
        if len(golfer) >= _FEWEST_POSES and golfer[-1] - golfer[0] >= _ENOUGH_NS / 2:
            return self.seen[-1].stamp_ns - self.seen[0].stamp_ns >= _ENOUGH_NS
        return self.seen[-1].stamp_ns - self.seen[0].stamp_ns >= 0.9 * WATCH_NS

    def report(self, plan: Plan, extras: SetUpExtras | None = None) -> SetUpReport | None:
        """The report, once enough was seen."""
        return check(Looked(self.seen, plan), extras) if self.has_enough else None


def check(looked: Looked, extras: SetUpExtras | None = None) -> SetUpReport:
    """Every check on a few seconds; needs at least one glimpse."""
    extras = extras or SetUpExtras()
    somebody = _somebody(looked)
    rows = [somebody]
    if somebody.answer is Answer.GO:
        rows += [_one_person(extras), *(one(looked) for one in _CHECKS)]
        rows += [_sound(extras), shutter()]
    else:
        rows += [frame_rate(looked), _sound(extras)]
    return SetUpReport(tuple(rows))


def _somebody(looked: Looked) -> SetUpRow:
    if len(looked.poses) >= min(_FEWEST_POSES, len(looked.seen)):
        return SetUpRow("golfer", Answer.GO, "seen")
    do = "Stand at the ball; point the camera so that you show from head to feet."
    return SetUpRow("golfer", Answer.NO_GO, "nobody is seen", do)


def _one_person(extras: SetUpExtras) -> SetUpRow:
    if extras.people is None:
        return SetUpRow(
            "one person", Answer.UNSURE, "not looked for", "See that you are alone in the picture."
        )
    if share_with_company(extras.people) > _MOSTLY:
        do = "Only the golfer in the picture; nobody within the club's reach."
        return SetUpRow("one person", Answer.NO_GO, "somebody else stays in the picture", do)
    return SetUpRow("one person", Answer.GO, "nobody else stays in the picture")


def _sound(extras: SetUpExtras) -> SetUpRow:
    if extras.sound_heard is None:
        return SetUpRow(
            "sound", Answer.UNSURE, "nobody said that it was heard", "Press S: a tone must sound."
        )
    if extras.sound_heard:
        return SetUpRow("sound", Answer.GO, "heard")
    do = "Turn the volume up, or choose another sound device."
    return SetUpRow("sound", Answer.NO_GO, "not heard", do)
