"""What a replay shows: the right picture, the right marks, the other swing beside or over it."""

from dataclasses import replace

import numpy as np
import pytest

from baycue.capture.frame import Picture
from baycue.replay.film import SwingFilm, film_of_shots, span_of
from baycue.replay.overlay import Overlay, next_overlay, painted, same_way_round
from baycue.replay.showing import Together, showing
from baycue.report.drawing import MEASURED, SHAFT
from baycue.swing.swing import CheckpointName
from tests.replayed_swing import GREY, left_handers_film, swing_film
from tests.test_report_annotate import pixels_of


def number_in(picture: Picture, column: int = 4) -> int:
    """The number that a film's picture shows by its bar."""
    return round(int((picture[:, column, 0] > 200).sum()) / 4) - 1


def test_the_picture_nearest_to_the_moment_is_shown() -> None:
    film = swing_film()
    shown = showing(film)
    for k in (0, 7, len(film.shots) - 1):
        at = replace(shown, player=shown.player.moved_to(film.stamps_ns[k] + 1_000))
        assert at.index == k
        assert number_in(at.picture()) == k


def test_the_shaft_and_the_knee_are_drawn_where_they_are() -> None:
    film = swing_film()
    index = film.index_at(film.checkpoints_ns[CheckpointName.P6])
    picture, sight = painted(film, index, Overlay.MEASURED), film.sight(index)
    assert sight is not None
    knee = sight.pose.pixel(sight.stance.lead.knee)
    assert np.linalg.norm(pixels_of(picture, MEASURED) - knee, axis=1).min() < 8
    assert len(pixels_of(picture, SHAFT)) > 50


def test_the_picture_alone_has_nothing_drawn_on_it() -> None:
    film = swing_film()
    assert np.array_equal(painted(film, 5, Overlay.NOTHING), film.picture(5))
    assert not np.array_equal(painted(film, 5, Overlay.BODY), painted(film, 5, Overlay.MEASURED))
    assert [next_overlay(o) for o in Overlay] == [Overlay.BODY, Overlay.NOTHING, Overlay.MEASURED]


def test_without_a_pose_the_picture_is_shown_as_it_is() -> None:
    film = swing_film()
    blind = replace(
        film,
        scored=replace(
            film.scored,
            evidence=replace(film.scored.evidence, poses=film.scored.evidence.poses[:3]),
        ),
    )
    assert blind.sight(8) is None
    assert np.array_equal(painted(blind, 8, Overlay.BODY), film.picture(8))


def test_a_left_hander_is_turned_the_same_way_round() -> None:
    """Mirrored, the mirrored film is the film; JPEG changes grey by a little."""
    film, other = swing_film(), left_handers_film()
    turned = same_way_round(other.picture(9), other, film)
    assert np.abs(turned.astype(int) - film.picture(9)).max() < 12
    assert np.array_equal(same_way_round(film.picture(9), film, film), film.picture(9))


def test_side_by_side_shows_the_same_moment_of_both() -> None:
    film = swing_film()
    later = replace(
        film,
        shots=tuple(replace(s, stamp_ns=s.stamp_ns + 10**12) for s in film.shots),
        scored=replace(
            film.scored,
            evidence=replace(
                film.scored.evidence,
                swing=replace(
                    film.scored.evidence.swing,
                    checkpoints=tuple(
                        replace(c, time_ns=c.time_ns + 10**12)
                        for c in film.scored.evidence.swing.checkpoints
                    ),
                ),
            ),
        ),
    )
    shown = showing(film, later)
    for k in (3, 20, len(film.shots) - 2):
        at = replace(shown, player=shown.player.moved_to(film.stamps_ns[k]))
        assert at.other_index == k
    assert shown.picture().shape == film.picture(0).shape


def test_a_ghost_of_the_same_swing_lies_on_it() -> None:
    """Over itself, mirrored back, moved and scaled by nothing, the picture hardly changes."""
    film = swing_film()
    ghost = replace(showing(film, left_handers_film()), together=Together.GHOST)
    bare = replace(ghost, overlay=Overlay.NOTHING)
    off = np.abs(bare.picture().astype(int) - film.picture(bare.index))
    assert np.percentile(off, 99) < 12


def test_going_round_the_ways_to_show_another_swing() -> None:
    alone = showing(swing_film())
    assert alone.with_next_together() is alone
    both = showing(swing_film(), left_handers_film())
    ways = [both.together]
    for _ in Together:
        both = both.with_next_together()
        ways.append(both.together)
    assert ways == [Together.BESIDE, Together.GHOST, Together.ALONE, Together.BESIDE]
    assert number_in(replace(both, together=Together.ALONE).picture()) == both.index


def test_a_film_holds_the_swing_and_no_more() -> None:
    film = swing_film()
    early = replace(film.shots[0], stamp_ns=film.stamps_ns[0] - 60 * 10**9)
    found = film_of_shots([early, *film.shots], film.scored)
    assert found is not None
    since_ns, until_ns = span_of(film.scored)
    assert film.stamps_ns[0] < since_ns
    assert found.stamps_ns == tuple(t for t in film.stamps_ns if since_ns <= t <= until_ns)
    assert all(isinstance(shot.content, bytes) for shot in found.shots)
    assert film_of_shots([early], film.scored) is None


@pytest.mark.parametrize("index", [0, 11])
def test_packing_a_picture_keeps_it(index: int) -> None:
    film = swing_film()
    packed = film_of_shots(film.shots, film.scored)
    assert packed is not None
    assert number_in(packed.picture(index)) == packed.shots[index].index
    assert abs(int(packed.picture(index)[-1, -1, 0]) - GREY) < 4


def test_a_blurred_head_has_no_detail_left_in_any_picture() -> None:
    film = swing_film()
    noise = np.random.default_rng(1).integers(0, 255, film.picture(0).shape, dtype=np.uint8)
    shots = tuple(replace(shot, content=noise) for shot in film.shots)
    evidence = replace(film.scored.evidence, poses=film.scored.evidence.poses[5:])
    plain = SwingFilm(shots, replace(film.scored, evidence=evidence))
    blurred = replace(plain, blur_faces=True)
    for index in (0, 3, 10, len(shots) - 1):
        pose = film.scored.evidence.poses[index]
        x, y = (round(float(v)) for v in pose.pixels[:11].mean(axis=0))
        head = np.s_[max(y - 8, 0) : y + 8, x - 8 : x + 8]
        assert plain.picture(index)[head].std() > 60
        assert blurred.picture(index)[head].std() < 15
        assert np.array_equal(blurred.picture(index)[-20:], plain.picture(index)[-20:])
