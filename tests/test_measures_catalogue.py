"""The catalogue, and what holds for every measure in it."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import baycue.measures
from baycue.measures.catalogue import measure_named, measures
from baycue.measures.evidence import Camera, SwingEvidence
from baycue.measures.measure import Measure
from baycue.measures.measurement import Measurement, NotMeasuredError
from baycue.measures.when import When, checkpoint_of
from baycue.plan.stance import Handedness, View
from baycue.swing.swing import CheckpointName, Swing
from tests.canned_evidence import Filmed, as_drawn, evidence_of
from tests.stick_golfer import DOWN_THE_LINE_ROWS, Pinhole, StickGolfer

NAMES = [m.name for m in measures()]


def when_of(measure: Measure) -> When:
    """A request that the measure can answer."""
    return When() if measure.whole else When(CheckpointName.P6, CheckpointName.P6)


def taken(measure: Measure, evidence: SwingEvidence) -> Measurement:
    return measure.take(evidence, when_of(measure))


def named(name: str) -> Measure:
    found = measure_named(name)
    assert found is not None
    return found


def test_the_catalogue_is_every_module_that_defines_a_measure() -> None:
    folder = Path(baycue.measures.__file__).parent
    defining = [p for p in folder.glob("*.py") if "\nMEASURE = " in p.read_text("utf-8")]
    assert len(measures()) == len(defining)
    assert {name.replace(" ", "_").replace("-", "_") for name in NAMES} == {
        p.stem for p in defining
    }
    assert {"knee past ankle", "head rise", "tempo"} <= set(NAMES)


def test_names_are_unique_and_in_order() -> None:
    assert sorted(set(NAMES)) == NAMES


def test_a_measure_is_found_by_name_and_another_is_not() -> None:
    assert all(named(name).name == name for name in NAMES)
    assert measure_named("follow-through flair") is None


@pytest.mark.parametrize("name", NAMES)
def test_every_measure_says_what_it_is(name: str) -> None:
    measure = named(name)
    assert measure.definition.endswith(".")
    assert measure.views


@pytest.mark.parametrize("name", NAMES)
def test_every_measurement_is_finite_named_and_in_its_unit(name: str) -> None:
    measure = named(name)
    got = taken(measure, evidence_of(Filmed()))
    assert (got.measure, got.unit) == (name, measure.unit)
    assert np.isfinite(got.value)
    assert 0 < got.sigma < np.inf


@pytest.mark.parametrize("name", NAMES)
def test_a_swing_without_checkpoints_is_not_measured(name: str) -> None:
    evidence = replace(evidence_of(Filmed()), swing=Swing(1, ()))
    with pytest.raises(NotMeasuredError, match="was not found"):
        taken(named(name), evidence)


def why_not(measure: Measure, evidence: SwingEvidence) -> str | None:
    try:
        taken(measure, evidence)
    except NotMeasuredError as why:
        return str(why)
    return None


@pytest.mark.parametrize("name", NAMES)
def test_a_missing_checkpoint_that_is_needed_is_named(name: str) -> None:
    evidence, reasons = evidence_of(Filmed()), []
    for gone in evidence.swing.checkpoints:
        rest = tuple(c for c in evidence.swing.checkpoints if c is not gone)
        why = why_not(named(name), replace(evidence, swing=Swing(1, rest)))
        if why:
            assert gone.name.value in why
            reasons.append(why)
    assert reasons


def test_a_target_without_a_moment_is_not_measured() -> None:
    with pytest.raises(NotMeasuredError, match="the moment was not found"):
        checkpoint_of(evidence_of(Filmed()), None)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("handedness", Handedness)
@pytest.mark.parametrize("mirrored", [False, True], ids=["plain", "mirrored"])
def test_either_hand_in_either_picture_measures_the_same(
    name: str, handedness: Handedness, mirrored: bool
) -> None:
    golfer = StickGolfer(knee_m=lambda t: 0.03 + 0.1 * t, head_m=lambda t: 0.02 * t)
    other = Filmed(golfer, Pinhole(), handedness, mirrored)
    here = taken(named(name), as_drawn(evidence_of(Filmed(golfer)), name))
    there = taken(named(name), as_drawn(evidence_of(other), name))
    assert there.value == pytest.approx(here.value, abs=1e-9)
    assert there.sigma == pytest.approx(here.sigma, abs=1e-9)


@settings(max_examples=15, deadline=None)
@given(
    knee_m=st.floats(-0.08, 0.1),
    rise_m=st.floats(-0.08, 0.08),
    stature_m=st.floats(1.5, 2.0),
    aside_m=st.floats(-0.6, 0.6),
    name=st.sampled_from(NAMES),
)
def test_mirroring_picture_and_stance_changes_no_measure(
    knee_m: float, rise_m: float, stature_m: float, aside_m: float, name: str
) -> None:
    golfer = StickGolfer(stature_m, lambda _t: knee_m, lambda t: rise_m * (t > -0.5))
    filmed = Filmed(golfer, Pinhole(aside_m=aside_m), fps=30)
    here = taken(named(name), as_drawn(evidence_of(filmed), name))
    there = taken(named(name), as_drawn(evidence_of(replace(filmed, mirrored=True)), name))
    assert there.value == pytest.approx(here.value, abs=1e-9)
    assert there.sigma == pytest.approx(here.sigma, abs=1e-9)


@pytest.mark.parametrize("name", NAMES)
def test_a_finer_picture_measures_the_same(name: str) -> None:
    coarse = evidence_of(Filmed())
    finer = replace(
        coarse,
        poses=tuple(replace(p, pixels=1.5 * p.pixels) for p in coarse.poses),
        camera=Camera(1920, 1080, coarse.camera.horizontal_fov_deg),
    )
    one, other = taken(named(name), coarse), taken(named(name), finer)
    assert other.value == pytest.approx(one.value, abs=1e-9)


@pytest.mark.parametrize("name", NAMES)
def test_a_later_clock_measures_the_same(name: str) -> None:
    early, by_ns = evidence_of(Filmed()), 3_600_000_000_000
    late = replace(
        early,
        poses=tuple(replace(p, stamp_ns=p.stamp_ns + by_ns) for p in early.poses),
        shaft=tuple(replace(r, stamp_ns=r.stamp_ns + by_ns) for r in early.shaft),
        swing=Swing(
            1, tuple(replace(c, time_ns=c.time_ns + by_ns) for c in early.swing.checkpoints)
        ),
    )
    assert taken(named(name), late).value == pytest.approx(
        taken(named(name), early).value, abs=1e-6
    )


@pytest.mark.parametrize("name", [m.name for m in measures() if View.DOWN_THE_LINE in m.views])
def test_measures_for_down_the_line_work_there(name: str) -> None:
    camera = Pinhole(rows=tuple(map(tuple, DOWN_THE_LINE_ROWS)))
    evidence = evidence_of(Filmed(camera=camera, view=View.DOWN_THE_LINE))
    assert np.isfinite(taken(named(name), evidence).value)
