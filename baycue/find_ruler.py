"""Look for the thing of known length that the plan tells of."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from baycue.bay.board import BoardSeen
from baycue.bay.board_page import CHECK_LINE_MM
from baycue.bay.board_watch import BoardWatch
from baycue.bay.level import Level, levelled_px
from baycue.bay.stick import StickPlace, StickSeen, find_stick
from baycue.club.scenes import SHRINK
from baycue.glimpse import Glimpse
from baycue.measures.evidence import Camera
from baycue.measures.ruler import NO_RULER, Ruler
from baycue.measures.scale import px_per_m_by_body, stick_beyond_ankles_m
from baycue.plan.camera_facts import ScaleBy
from baycue.plan.plan import Plan
from baycue.plan.stance import View
from baycue.pose.pose import FloatArray, Pose
from baycue.pose.sides import LEFT, RIGHT

_ASIDE_M = 0.5
"""How far the stick's middle may be from the feet's, along the target line."""
_SHOE_M = 0.16
"""So much of the stick a shoe may hide."""
_ABOVE_TOES_M, _BELOW_TOES_M = 0.10, 0.45


def board_watch(plan: Plan) -> BoardWatch | None:
    """What looks for the board, if the plan asks for it."""
    return BoardWatch(plan.camera.mirrored) if plan.scale.by is ScaleBy.BOARD else None


def find_ruler(
    plan: Plan, seen: Sequence[Glimpse], poses: tuple[Pose, ...], camera: Camera, level: Level
) -> Ruler:
    """What was seen of the ruler in one swing's glimpses, as a level camera would have."""
    if plan.scale.by is ScaleBy.BOARD:
        return _board(plan, seen, camera, level)
    if plan.scale.by is ScaleBy.STICK:
        return _stick(plan, seen, poses, camera, level)
    return NO_RULER


def _board(plan: Plan, seen: Sequence[Glimpse], camera: Camera, level: Level) -> Ruler:
    line = plan.scale.check_line
    printed = line.value / (CHECK_LINE_MM * 1e-3) if line else 1.0
    return Ruler(ScaleBy.BOARD, board=_level_board(seen, camera, level), printed_share=printed)


def _stick(
    plan: Plan, seen: Sequence[Glimpse], poses: tuple[Pose, ...], camera: Camera, level: Level
) -> Ruler:
    """Face-on only: from behind, a stick along the target line points at the camera."""
    length, gap = plan.scale.length, plan.scale.in_front_of_toes
    assert length is not None, "plans are checked"
    in_front_m = gap.value if gap else None
    ruler = Ruler(ScaleBy.STICK, stick_length_m=length.value, stick_in_front_m=in_front_m)
    if plan.view is not View.FACE_ON:
        return ruler
    # The first poses of a swing's memory stand at address, and the feet are where they were.
    standing = poses[: max(len(poses) // 8, 1)]
    place = stick_place(standing, camera, plan.stature_m, length.value, in_front_m)
    found = find_stick([g.grey for g in seen], place)
    if found is None:
        return ruler
    ends_px = _full_size(found.ends_px, camera, level)
    return replace(ruler, stick=StickSeen(ends_px, found.contrast))


def _level_board(seen: Sequence[Glimpse], camera: Camera, level: Level) -> BoardSeen | None:
    board = seen[-1].board
    if board is None:
        return None
    corners = levelled_px(board.corners_px, level, camera.width_px, camera.height_px)
    return BoardSeen(corners, board.likeness)


def _full_size(ends_px: FloatArray, camera: Camera, level: Level) -> FloatArray:
    """Ends found in the small pictures, in the full one and level."""
    full = (ends_px + 0.5) * SHRINK - 0.5
    return levelled_px(full, level, camera.width_px, camera.height_px)


def stick_place(
    poses: tuple[Pose, ...],
    camera: Camera,
    stature_m: float,
    length_m: float,
    in_front_m: float | None,
) -> StickPlace:
    """Where in the small pictures a stick before the feet may lie, and about how long it is."""
    px_per_m = px_per_m_by_body(poses, stature_m)
    beyond_m, _ = stick_beyond_ankles_m(stature_m, in_front_m)
    nearer = 1 / (1 - min(beyond_m * px_per_m / camera.focal_px, 0.5))
    toes = np.median([p.pixels[[LEFT.toe, RIGHT.toe]] for p in poses], axis=0)
    middle, level_px = float(toes[:, 0].mean()), toes[:, 1]
    reach = (0.6 * length_m + _ASIDE_M) * px_per_m * nearer
    box = (
        max(middle - reach, 0.0),
        max(float(level_px.min()) - _ABOVE_TOES_M * px_per_m, 0.0),
        min(middle + reach, float(camera.width_px)),
        min(float(level_px.max()) + _BELOW_TOES_M * px_per_m, float(camera.height_px)),
    )
    left, top, right, bottom = (int(edge / SHRINK) for edge in box)
    seen_px_per_m = px_per_m * nearer / SHRINK
    return StickPlace((left, top, right, bottom), length_m * seen_px_per_m, _SHOE_M * seen_px_per_m)
