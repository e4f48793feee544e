"""Drawings that several measures share."""

import numpy as np

from baycue.measures.evidence import FloatArray
from baycue.measures.marks import Arc, Dot, Line, Mark, Role, Sight
from baycue.pose.pose import Landmark

_REACH_SHARE = 0.10
"""Of the body: how far a plumb or level line reaches either way."""


def middle_px(sight: Sight, *landmarks: Landmark) -> FloatArray:
    """The mean of some landmarks in this picture, (2,) px."""
    return np.asarray(sight.pose.pixels[list(landmarks)].mean(axis=0))


def at_address_px(sight: Sight, *landmarks: Landmark) -> FloatArray:
    """The median over address of the mean of some landmarks, (2,) px."""
    places = [p.pixels[list(landmarks)].mean(axis=0) for p in sight.address]
    return np.asarray(np.median(places, axis=0))


def shifted(sight: Sight, *landmarks: Landmark) -> tuple[Mark, ...]:
    """A plumb line where some landmarks were at address, and a bar from it to where they are."""
    return from_plumb(sight, at_address_px(sight, *landmarks), middle_px(sight, *landmarks))


def raised(sight: Sight, *landmarks: Landmark) -> tuple[Mark, ...]:
    """A level line where some landmarks were at address, and a bar from it to where they are."""
    now, before = middle_px(sight, *landmarks), at_address_px(sight, *landmarks)
    half = np.array([_REACH_SHARE * sight.body_px, 0.0])
    foot = np.array([now[0], before[1]])
    return (
        Line(np.array([foot - half, foot + half]), Role.FROM),
        Line(np.array([foot, now]), Role.MEASURED),
        Dot(now, Role.MEASURED),
    )


def from_plumb(sight: Sight, plumb_px: FloatArray, now_px: FloatArray) -> tuple[Mark, ...]:
    """A plumb line through ``plumb_px`` past ``now_px``, and a level bar between them."""
    half = _REACH_SHARE * sight.body_px
    ends = [*(plumb_px[1], now_px[1] - half, now_px[1] + half)]
    line = np.array([[plumb_px[0], min(ends)], [plumb_px[0], max(ends)]])
    foot = np.array([plumb_px[0], now_px[1]])
    return (
        Line(line, Role.FROM),
        Line(np.array([foot, now_px]), Role.MEASURED),
        Dot(now_px, Role.MEASURED),
    )


def gap(point_px: FloatArray, start_px: FloatArray, end_px: FloatArray) -> tuple[Mark, ...]:
    """A bar from a place square to the line through two others, which goes on dashed to there."""
    foot = foot_of(point_px, start_px, end_px)
    nearer = min((start_px, end_px), key=lambda place: float(np.linalg.norm(place - foot)))
    return (
        Line(np.array([start_px, end_px]), Role.FROM),
        Line(np.array([nearer, foot]), Role.FROM, dashed=True),
        Line(np.array([foot, point_px]), Role.MEASURED),
        Dot(point_px, Role.MEASURED),
    )


def opening(
    sight: Sight, at_px: FloatArray, from_way_px: FloatArray, way_px: FloatArray
) -> tuple[Mark, ...]:
    """The angle at a place from one direction to another, each (2,) px, as lines and an arc."""
    start, end = (np.degrees(np.arctan2(way[1], way[0])) for way in (from_way_px, way_px))
    turned = (end - start + 180) % 360 - 180
    arms = [float(np.linalg.norm(way)) for way in (from_way_px, way_px)]
    radius = min(*arms, 0.2 * sight.body_px)
    return (
        Line(np.array([at_px, at_px + from_way_px]), Role.FROM),
        Line(np.array([at_px, at_px + way_px]), Role.MEASURED),
        Arc(at_px, radius, float(start), float(start + turned), Role.MEASURED),
    )


def foot_of(point_px: FloatArray, start_px: FloatArray, end_px: FloatArray) -> FloatArray:
    """The nearest place to a point on the line through two others, (2,) px."""
    along = end_px - start_px
    share = float((point_px - start_px) @ along) / max(float(along @ along), 1e-9)
    return np.asarray(start_px + share * along)
