"""From a strike and the frames remembered to all that is known about the swing."""

from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass, field

from baycue.bay.level import Level, camera_level, levelled_shaft, levelled_throughout
from baycue.bay.passer_by import NewBeside, area_bodies2, looked_at, new_beside
from baycue.club.ball import ball_gone_ns
from baycue.club.memo import Memo, ShaftMemo, shaft_memo
from baycue.club.reading import ShaftReading
from baycue.club.scene import ClubScene
from baycue.club.scenes import SHRINK, ball_scene, club_scene
from baycue.club.track import settle_shaft, surroundings_in, track_shaft
from baycue.find_ruler import find_ruler
from baycue.glimpse import Glimpse
from baycue.measures.evidence import Camera, SwingEvidence, in_company
from baycue.plan.plan import Plan
from baycue.plan.stance import View
from baycue.pose.pose import Pose
from baycue.pose.sides import Stance
from baycue.swing.checkpoints import find_checkpoints
from baycue.swing.events import StrikeSeen
from baycue.swing.swing import Swing
from baycue.swing.swing_curves import Instant, swing_curves

_ROOM_SHARE = 0.15
_BEFORE_TOP_NS = 250_000_000
"""With a downswing of a quarter of a second or more: half a second before impact."""


@dataclass(frozen=True, slots=True)
class SwingMemo:
    """What has been worked out of one swing before it was over."""

    shaft: ShaftMemo = field(default_factory=ShaftMemo)
    level: Memo[Level] = field(default_factory=Memo)
    beside: Memo[tuple[NewBeside, ...]] = field(default_factory=Memo)


def swing_memo(before_work: Callable[[], None] | None = None) -> SwingMemo:
    """A memo that calls ``before_work`` before each piece of work; it may raise to end a look."""
    return SwingMemo(shaft_memo(before_work), Memo(before_work), Memo(before_work))


def assemble(
    number: int,
    strike: StrikeSeen,
    seen: tuple[Glimpse, ...],
    plan: Plan,
    stance: Stance,
    memo: SwingMemo | None = None,
) -> SwingEvidence:
    """The evidence of one swing; every glimpse of ``seen`` has a pose."""
    poses = tuple(g.pose for g in seen if g.pose)
    greys = tuple(g.grey for g in seen)
    face_on = plan.view is View.FACE_ON
    memo = memo or SwingMemo()
    level, scene = _level_of(strike, seen, memo), club_scene(strike, greys, poses, stance)
    raw_shaft = track_shaft(scene, memo.shaft) if face_on else ()
    shaft = tuple(levelled_shaft(r, level, stance) for r in raw_shaft)
    gone = None if shaft else ball_gone_ns(ball_scene(strike, greys, poses, plan.stature_m))
    size = seen[0].width_px, seen[0].height_px
    camera = Camera(*size, plan.camera.horizontal_fov_deg, plan.camera.lens.bow)
    upright = levelled_throughout(poses, level, *size)
    beside_bodies2 = _beside(strike, scene, poses, raw_shaft, stance, memo) if face_on else 0.0
    curves = swing_curves(
        strike,
        upright,
        shaft,
        stance,
        face_on,
        Instant(*gone) if gone else None,
        level.sigma_deg,
        in_company(beside_bodies2),
    )
    return SwingEvidence(
        swing=Swing(number, find_checkpoints(curves)),
        poses=upright,
        shaft=shaft,
        stance=stance,
        view=plan.view,
        stature_m=plan.stature_m,
        camera=camera,
        level=level,
        ruler=find_ruler(plan, seen, poses, camera, level),
        beside_bodies2=beside_bodies2,
    )


def settle(
    strike: StrikeSeen,
    seen: tuple[Glimpse, ...],
    stance: Stance,
    memo: SwingMemo,
    guessed: int = 0,
    ends: bool = False,
) -> None:
    """Work out, face-on, what ``assemble`` will recall; the last two as in ``settle_shaft``."""
    _level_of(strike, seen, memo)
    poses = tuple(g.pose for g in seen if g.pose)
    scene = club_scene(strike, tuple(g.grey for g in seen), poses, stance)
    settle_shaft(scene, memo.shaft, guessed, ends)
    known = poses[: len(poses) - guessed]
    if scene.going_back.stop < len(known):
        for stretch in _before_the_downswing(strike, scene):
            _new_in(stretch, scene, known, memo)


def _level_of(strike: StrikeSeen, seen: tuple[Glimpse, ...], memo: SwingMemo) -> Level:
    back = tuple(g for g in seen if g.stamp_ns <= strike.top_ns) or seen[:1]
    poses = tuple(g.pose for g in back if g.pose)
    return memo.level.recall(tuple(g.stamp_ns for g in back), lambda: _level(back, poses))


def _beside(
    strike: StrikeSeen,
    scene: ClubScene,
    poses: tuple[Pose, ...],
    raw_shaft: tuple[ShaftReading, ...],
    stance: Stance,
    memo: SwingMemo,
) -> float:
    """The most that is new beside the golfer in any stretch looked at, body lengths squared."""

    def new_bodies2(stretch: slice) -> float:
        new = _new_in(stretch, scene, poses, memo)
        there = poses[stretch], raw_shaft[stretch]
        return area_bodies2(new, *there, stance, scene.body_px, SHRINK)

    down = slice(scene.going_back.stop, len(poses))
    return max(new_bodies2(stretch) for stretch in (*_before_the_downswing(strike, scene), down))


def _before_the_downswing(strike: StrikeSeen, scene: ClubScene) -> tuple[slice, slice]:
    """At the ball, and about the top: who was there may stand behind the golfer, unseen."""
    at_the_ball, about_the_top = (
        bisect_right(scene.stamps_ns, until_ns)
        for until_ns in (strike.takeaway_ns, strike.top_ns - _BEFORE_TOP_NS)
    )
    return slice(0, at_the_ball), slice(about_the_top, scene.going_back.stop)


def _new_in(
    stretch: slice, scene: ClubScene, poses: tuple[Pose, ...], memo: SwingMemo
) -> tuple[NewBeside, ...]:
    """What is new in a stretch, from the same pictures and poses worked out once."""
    stamps_ns, there = scene.stamps_ns[stretch], poses[stretch]
    surroundings = surroundings_in(scene, memo.shaft)
    places = tuple(there[k].pixels.tobytes() for k in looked_at(len(there)))
    return memo.beside.recall(
        (stamps_ns, places, surroundings, scene.body_px),
        lambda: new_beside(
            scene.greys[stretch], there, surroundings.background, scene.body_px, SHRINK
        ),
    )


def _level(seen: tuple[Glimpse, ...], poses: tuple[Pose, ...]) -> Level:
    """The level told by the bay's uprights, the golfer's own place left out."""
    places = poses[0].pixels / SHRINK
    low, high = places.min(axis=0), places.max(axis=0)
    room = _ROOM_SHARE * (high - low)
    box = (*(low - room), *(high + room))
    return camera_level([g.grey for g in seen], box)
