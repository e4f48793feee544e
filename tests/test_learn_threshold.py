"""The bound proposed: which side, how far out, and in whose unit."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baycue.learn.finding import compared
from baycue.learn.threshold import outward, propose, written_unit
from baycue.learn.words import doubt_words
from baycue.measures.catalogue import measures
from baycue.measures.measurement import Unit
from baycue.plan.units import Quantity, WrittenUnit, parse_quantity
from tests.learnt_samples import GOOD_KNEE, POOR_KNEE, asked, knee, sample

CM, INCH = WrittenUnit.CM, WrittenUnit.INCH


def test_apart_from_poor_swings_the_bound_faces_them() -> None:
    """Good: n 5, mean 5.56 cm, s 0.602 cm; t 0.90, 4 is 1.533 in the tables: 4.55 cm."""
    found = propose(knee(), 0.9, CM)
    assert found is not None
    assert (found.bound, found.watch_only) == ({"at_least": "4.5 cm"}, False)


def test_lower_than_poor_swings_it_is_at_most() -> None:
    found = propose(knee(sample(0.01, 0.02, 0.03), sample(*GOOD_KNEE)), 0.9, CM)
    assert found is not None
    assert (list(found.bound), found.watch_only) == (["at_most"], False)


def test_apart_by_so_few_that_it_may_be_chance_it_is_watched_only() -> None:
    found = propose(knee(sample(0.05, 0.06, 0.07), sample(0.01, 0.02)), 0.9, CM)
    assert found is not None
    assert (list(found.bound), found.watch_only) == (["at_least"], True)


def test_what_one_camera_cannot_be_trusted_with_is_watched_only_however_clear() -> None:
    doubted = next(m.name for m in measures() if m.doubt and m.unit is Unit.METRE)
    row = (asked(doubted), sample(*GOOD_KNEE), sample(*POOR_KNEE))
    (finding,) = compared([row])
    found = propose(finding, 0.9, CM)
    assert finding.differs
    assert found is not None
    assert (list(found.bound), found.watch_only) == (["at_least"], True)
    assert "from one camera" in doubt_words(finding)


@pytest.mark.parametrize("poor", [sample(), sample(0.050, 0.058, 0.061)])
def test_with_nothing_to_tell_apart_it_has_two_sides_and_is_watched_only(poor: object) -> None:
    found = propose(knee(poor=poor), 0.9, CM)  # type: ignore[arg-type]
    assert found is not None
    assert found.watch_only
    low, high = (parse_quantity(str(v)).value for v in found.bound["between"])
    assert low < min(GOOD_KNEE)
    assert high > max(GOOD_KNEE)


def test_two_swings_are_too_few() -> None:
    assert propose(knee(sample(0.05, 0.06)), 0.9, CM) is None


def test_the_coach_s_own_units() -> None:
    assert written_unit(Unit.METRE, WrittenUnit.FOOT) is INCH
    assert written_unit(Unit.METRE, WrittenUnit.M) is CM
    assert written_unit(Unit.DEGREE, CM) is WrittenUnit.DEGREE
    found = propose(knee(), 0.9, INCH)
    assert found is not None
    assert found.bound == {"at_least": "1.7 in"}


@given(
    st.floats(-1, 1), st.sampled_from([CM, INCH, WrittenUnit.MM, WrittenUnit.RATIO]), st.booleans()
)
def test_rounding_goes_outward_by_less_than_a_step(
    value: float, unit: WrittenUnit, down: bool
) -> None:
    written = parse_quantity(outward(value, unit, down))
    assert isinstance(written, Quantity)
    step = float(unit.size) / 10**unit.decimals
    beyond = (value - written.value) if down else (written.value - value)
    assert -1e-5 * step <= beyond <= step * (1 + 1e-9)


def test_what_is_round_already_stays() -> None:
    assert outward(0.05, CM, down=True) == outward(0.05, CM, down=False) == "5.0 cm"
    assert outward(-0.0004, CM, down=False) == "0.0 cm"
