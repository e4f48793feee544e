"""A plan's bound in the picture: the lane ends where the measured thing would just pass."""

from dataclasses import replace

import cv2
import numpy as np
import pytest

from baycue.measures.allowed import Allowed
from baycue.measures.catalogue import measure_named, measures
from baycue.measures.evidence import FloatArray
from baycue.measures.lane import lane
from baycue.measures.marks import Area, Line, Mark, Role, Sight
from baycue.measures.measure import Measure, Way
from baycue.measures.measurement import Unit
from baycue.measures.scale import scale_of
from baycue.measures.when import Extreme, When
from baycue.plan.stance import Handedness, View
from baycue.swing.swing import CheckpointName
from tests.canned_evidence import Filmed, evidence_of
from tests.canned_readings import ns
from tests.test_measures_drawings import sight_at

ADDRESS, TOP, P6, IMPACT = (
    CheckpointName.ADDRESS,
    CheckpointName.TOP,
    CheckpointName.P6,
    CheckpointName.IMPACT,
)
QUICK = Filmed(fps=240.0)
"""So that a picture is near each moment."""
AT_P6 = When(P6, P6)
SEEN = [m for m in measures() if View.FACE_ON in m.views and m.way is not Way.UNSEEN]
SHIFTS = [m for m in SEEN if m.unit is Unit.METRE]
TURNS = [m for m in SEEN if m.unit is Unit.DEGREE]


def at_p6(filmed: Filmed | None = None) -> Sight:
    evidence = evidence_of(filmed or QUICK)
    found = evidence.swing.at(P6)
    assert found is not None
    return sight_at(evidence, found.time_ns)


def named(name: str) -> Measure:
    found = measure_named(name)
    assert found is not None
    return found


def edges(marks: tuple[Mark, ...]) -> list[Line]:
    return [m for m in marks if isinstance(m, Line) and m.role is Role.LANE]


def bar(measure: Measure, sight: Sight) -> Line:
    lines = [m for m in measure.draw(sight) if isinstance(m, Line) and m.role is Role.MEASURED]
    return lines[-1]


def value_at_p6(measure: Measure, sight: Sight) -> float:
    return measure.take(sight.evidence, AT_P6).value


@pytest.mark.parametrize("measure", SEEN, ids=lambda m: m.name)
def test_what_passes_is_inside_and_what_fails_is_outside(measure: Measure) -> None:
    sight = at_p6()
    value = value_at_p6(measure, sight)
    step = 0.04 if measure.unit is Unit.METRE else 12.0
    end = bar(measure, sight).points_px[-1]
    passing = lane(sight, measure, Allowed(value - step, value + step, AT_P6))
    failing = lane(sight, measure, Allowed(value + step, value + 3 * step, AT_P6))
    assert _inside(passing, end)
    assert not _inside(failing, end)
    assert len(edges(passing)) == 2


def _inside(marks: tuple[Mark, ...], place: FloatArray) -> bool:
    (area,) = (m for m in marks if isinstance(m, Area))
    outline = area.outline_px.astype(np.float32)
    # A turned bar ends on the lane's rim: a hair nearer its middle it is inside or it is not.
    nearer = place + 0.02 * (outline[0] - place) if len(outline) > 4 else place
    return cv2.pointPolygonTest(outline, (float(nearer[0]), float(nearer[1])), False) >= 0


@pytest.mark.parametrize("measure", SHIFTS, ids=lambda m: m.name)
def test_an_edge_is_as_far_off_as_the_value_lacks_of_it(measure: Measure) -> None:
    sight = at_p6()
    value = value_at_p6(measure, sight)
    (edge,) = edges(lane(sight, measure, Allowed(value + 0.05, None, AT_P6)))
    away = edge.points_px.mean(axis=0) - bar(measure, sight).points_px[-1]
    # One picture's own noise is in it, which the value smooths away.
    assert np.linalg.norm(away) == pytest.approx(0.05 * scale_of(sight.evidence).px_per_m, abs=4)


@pytest.mark.parametrize("measure", TURNS, ids=lambda m: m.name)
def test_an_angles_edge_is_turned_by_what_the_value_lacks_of_it(measure: Measure) -> None:
    sight = at_p6()
    value = value_at_p6(measure, sight)
    (edge,) = edges(lane(sight, measure, Allowed(None, value - 20.0, AT_P6)))
    ways = [line.points_px[-1] - line.points_px[0] for line in (edge, bar(measure, sight))]
    cosine = float(ways[0] @ ways[1] / np.prod([np.linalg.norm(w) for w in ways]))
    assert np.degrees(np.arccos(cosine)) == pytest.approx(20.0, abs=3.0)


@pytest.mark.parametrize("hand", list(Handedness))
def test_for_either_hand_more_is_nearer_the_target(hand: Handedness) -> None:
    sight = at_p6(replace(QUICK, handedness=hand))
    knee = named("knee past ankle")
    value = value_at_p6(knee, sight)
    (edge,) = edges(lane(sight, knee, Allowed(value + 0.05, None, AT_P6)))
    beyond = edge.points_px[0, 0] - bar(knee, sight).points_px[-1, 0]
    assert beyond * sight.stance.toward_target > 0


def test_a_head_that_may_rise_has_its_level_above_it() -> None:
    sight, rise = at_p6(), named("head rise")
    (edge,) = edges(lane(sight, rise, Allowed(None, 0.04, When(ADDRESS, P6))))
    assert edge.points_px[0, 1] == pytest.approx(edge.points_px[1, 1])
    ears = bar(rise, sight).points_px[-1]
    risen = rise.take(sight.evidence, When(ADDRESS, P6)).value
    above_m = (ears[1] - edge.points_px[0, 1]) / scale_of(sight.evidence).px_per_m
    assert above_m == pytest.approx(0.04 - risen, abs=0.012)


def test_a_lane_counted_from_the_top_is_not_there_before_the_top() -> None:
    evidence = evidence_of(Filmed())
    top = evidence.swing.at(TOP)
    assert top is not None
    sway = named("head sway")
    asked = Allowed(-0.03, 0.03, When(TOP, P6))
    assert lane(sight_at(evidence, top.time_ns - ns(0.2)), sway, asked) == ()
    assert lane(sight_at(evidence, top.time_ns + ns(0.1)), sway, asked)


def test_over_a_span_it_is_counted_from_address() -> None:
    sight, sway = at_p6(), named("head sway")
    largest = Allowed(None, 0.05, When(ADDRESS, IMPACT, Extreme.LARGEST))
    to_p6 = Allowed(None, 0.05, When(ADDRESS, P6))
    (one,), (other,) = (edges(lane(sight, sway, each)) for each in (largest, to_p6))
    assert one.points_px == pytest.approx(other.points_px)


@pytest.mark.parametrize("name", ["tempo", "down before up", "lead knee bend"])
def test_what_no_picture_shows_has_no_lane(name: str) -> None:
    assert lane(at_p6(), named(name), Allowed(0.0, 1.0, AT_P6)) == ()
