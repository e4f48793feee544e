"""What each measure draws: the mark that is measured is as long, or as wide, as the value."""

from dataclasses import replace

import numpy as np
import pytest

from baycue.measures.catalogue import measure_named, measures
from baycue.measures.evidence import SwingEvidence
from baycue.measures.marks import Arc, Area, Dot, Line, Mark, Role, Sight
from baycue.measures.scale import scale_of
from baycue.plan.stance import Handedness, View
from baycue.report.drawing import arc_points, draw_marks
from baycue.swing.swing import CheckpointName
from tests.canned_evidence import Filmed, evidence_of
from tests.canned_readings import ns
from tests.posed_golfer import at, held, swung, take

P6, IMPACT = CheckpointName.P6, CheckpointName.IMPACT
OF_TIME = {"tempo"}
NAMES = [m.name for m in measures() if View.FACE_ON in m.views and m.name not in OF_TIME]
MOMENTS = {"takeaway": -0.3, "top": -0.1, "P6": 0.1, "impact": 0.2}


def sight_at(evidence: SwingEvidence, time_ns: int) -> Sight:
    """The frame nearest a moment."""
    k = int(np.argmin([abs(p.stamp_ns - time_ns) for p in evidence.poses]))
    shaft = evidence.shaft[k] if evidence.shaft else None
    return Sight(evidence.pose_as_filmed(evidence.poses[k]), shaft, evidence)


def drawn(name: str, sight: Sight) -> tuple[Mark, ...]:
    measure = measure_named(name)
    assert measure is not None
    return measure.draw(sight)


def measured(name: str, sight: Sight) -> tuple[Line, Arc | None]:
    """The line that is measured, and the arc if there is one."""
    marks = [m for m in drawn(name, sight) if m.role is Role.MEASURED]
    arcs = [m for m in marks if isinstance(m, Arc)]
    return next(m for m in marks if isinstance(m, Line)), arcs[0] if arcs else None


def length_px(line: Line) -> float:
    return float(np.linalg.norm(line.points_px[-1] - line.points_px[0]))


@pytest.mark.parametrize("name", NAMES)
def test_every_measure_but_those_of_time_shows_what_it_measures(name: str) -> None:
    marks = drawn(name, sight_at(evidence_of(Filmed()), ns(0.25)))
    assert {m.role for m in marks} >= {Role.MEASURED, Role.FROM}


GAPS = [
    "knee past ankle",
    "butt to trail thigh",
    "trail elbow to side",
    "elbow separation",
    "hand path radius",
]


@pytest.mark.parametrize("name", GAPS)
def test_a_gaps_bar_is_as_long_as_its_value(name: str) -> None:
    """On a golfer who keeps still; knee past ankle has a calibration, so to 3 cm."""
    evidence = swung(held(-40.0, -90.0), MOMENTS)
    value = take(name, evidence, at(P6)).value
    bar = length_px(measured(name, sight_at(evidence, ns(0.1)))[0])
    assert bar / scale_of(evidence).px_per_m == pytest.approx(abs(value), abs=0.03)


@pytest.mark.parametrize("hand", Handedness)
@pytest.mark.parametrize("name", ["lead arm angle", "wrist angle", "handle lean"])
def test_an_angles_arc_is_as_wide_as_its_value(name: str, hand: Handedness) -> None:
    evidence = evidence_of(Filmed(handedness=hand, fps=120.0))
    impact = evidence.swing.at(P6)
    assert impact
    sight = sight_at(evidence, impact.time_ns)
    _, arc = measured(name, sight)
    assert arc is not None
    assert sight.shaft is not None
    lead = evidence.stance.lead
    joints = {
        "lead arm angle": (lead.shoulder, lead.wrist),
        "wrist angle": (lead.elbow, lead.wrist),
    }
    here = -sight.shaft.angle_deg
    if name in joints:
        step = np.subtract(*(sight.pose.pixel(j) for j in reversed(joints[name])))
        limb = np.degrees(np.arctan2(step[0] * evidence.stance.toward_target, step[1]))
        here = limb + 90 if name == "lead arm angle" else limb + here
    assert abs(arc.end_deg - arc.start_deg) == pytest.approx(abs(here), abs=0.1)


@pytest.mark.parametrize("hand", Handedness)
@pytest.mark.parametrize("name", NAMES)
def test_a_left_handers_drawing_is_the_mirror_image(name: str, hand: Handedness) -> None:
    right, left = (evidence_of(Filmed(handedness=h)) for h in (Handedness.RIGHT, hand))
    width = right.camera.width_px
    one, other = (drawn(name, sight_at(e, ns(0.25))) for e in (right, left))
    flip = hand is Handedness.LEFT
    for here, there in zip(one, other, strict=True):
        assert (type(here), here.role) == (type(there), there.role)
        places = np.sort(outline(there)[:, 0])
        mirrored = np.sort(width - outline(here)[:, 0]) if flip else np.sort(outline(here)[:, 0])
        assert places == pytest.approx(mirrored, abs=1e-6)


def outline(mark: Mark) -> np.ndarray:
    if isinstance(mark, Dot):
        return mark.place_px[None]
    if isinstance(mark, Arc):
        return arc_points(mark)
    return mark.outline_px if isinstance(mark, Area) else mark.points_px


@pytest.mark.parametrize("name", ["wrist angle", "handle lean", "butt to buckle"])
def test_without_the_shaft_nothing_is_drawn_from_it(name: str) -> None:
    sight = sight_at(replace(evidence_of(Filmed()), shaft=()), ns(0.25))
    assert drawn(name, sight) == ()


def test_an_arc_goes_the_way_it_says() -> None:
    """A quarter to the right and down, as OpenCV counts, and the other way about."""
    centre = np.array([50.0, 50.0])
    quarter = arc_points(Arc(centre, 10.0, 0.0, 90.0, Role.MEASURED))
    assert quarter[0] == pytest.approx([60.0, 50.0])
    assert quarter[-1] == pytest.approx([50.0, 60.0])
    back = arc_points(Arc(centre, 10.0, 0.0, -90.0, Role.MEASURED))
    assert back[-1] == pytest.approx([50.0, 40.0])
    assert np.linalg.norm(quarter - centre, axis=1) == pytest.approx(np.full(len(quarter), 10.0))


@pytest.mark.parametrize(
    "mark",
    [
        Line(np.array([[20.0, 50.0], [80.0, 50.0]]), Role.MEASURED),
        Line(np.array([[20.0, 50.0], [80.0, 50.0]]), Role.FROM, dashed=True),
        Dot(np.array([50.0, 50.0]), Role.FROM),
        Arc(np.array([50.0, 50.0]), 20.0, 0.0, 120.0, Role.MEASURED),
        Area(np.array([[30.0, 30.0], [70.0, 30.0], [70.0, 70.0], [30.0, 70.0]]), Role.LANE),
    ],
    ids=lambda m: f"{type(m).__name__} {m.role.name}",
)
def test_every_kind_of_mark_is_painted_and_stays_in_its_place(mark: Mark) -> None:
    picture = np.full((100, 100, 3), 90, dtype=np.uint8)
    draw_marks(picture, [mark])
    rows, columns = np.nonzero((picture != 90).any(axis=2))
    assert rows.size > 5
    assert rows.min() > 10
    assert columns.max() < 90
