"""Good from poor by ranks, against published tables and statsmodels' figures."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baycue.learn.separation import Separation, holm, separation_of

# One-sided probabilities of so small a U or smaller, from the table of Mann and Whitney 1947 as
# printed in Siegel 1956, table J (from memory): sizes, then P(U <= 0), P(U <= 1), ...
TABLE_J = {
    (3, 3): (0.050, 0.100, 0.200, 0.350),
    (3, 4): (0.028, 0.057, 0.114, 0.200),
    (4, 4): (0.014, 0.029, 0.057, 0.100, 0.171),
    (5, 5): (0.004, 0.008, 0.016, 0.028, 0.048, 0.075),
}
# Critical values of U, two-sided at 0.05, as printed in many textbooks (from memory).
CRITICAL_U = {(4, 4): 0, (5, 5): 2, (6, 6): 5, (7, 7): 8, (8, 8): 13, (5, 8): 6, (10, 10): 23}


def with_u(good: int, poor: int, u: int) -> Separation:
    """Two samples without ties of which the good one's U is ``u``."""
    places = next(
        chosen
        for chosen in combinations(range(good + poor), good)
        if sum(chosen) - good * (good - 1) // 2 == u
    )
    high = [float(k) for k in places]
    low = [float(k) for k in range(good + poor) if k not in places]
    found = separation_of(high, low)
    assert found is not None
    assert found.higher == u
    return found


@pytest.mark.parametrize(("sizes", "table"), TABLE_J.items())
def test_p_is_twice_the_published_one_sided_probability(
    sizes: tuple[int, int], table: tuple[float, ...]
) -> None:
    for u, one_sided in enumerate(table):
        assert with_u(*sizes, u).p == pytest.approx(
            2 * one_sided, abs=1.5e-3
        )  # the table cuts .0286 to .028


@pytest.mark.parametrize(("sizes", "critical"), CRITICAL_U.items())
def test_five_in_a_hundred_falls_at_the_published_critical_value(
    sizes: tuple[int, int], critical: int
) -> None:
    assert with_u(*sizes, critical).p <= 0.05 < with_u(*sizes, critical + 1).p


def test_three_against_three_can_never_be_below_a_tenth() -> None:
    found = separation_of([4, 5, 6], [1, 2, 3])
    assert found is not None
    assert (found.p, found.least_p) == pytest.approx((0.1, 0.1))
    assert (found.share, found.strength, found.good_is_higher) == (1, 1, True)


def test_lower_is_told_apart_as_well_as_higher() -> None:
    up, down = separation_of([4, 5, 6], [1, 2, 3]), separation_of([1, 2, 3], [4, 5, 6])
    assert up is not None
    assert down is not None
    assert (up.p, up.strength) == (down.p, down.strength)
    assert not down.good_is_higher


def test_ties_count_half_and_are_permuted() -> None:
    """1 2 2 against 2 3: U = 0.5 + 0.5; of the ten ways to deal 1 2 2 2 3 into three and two,
    by hand: rank sums 1+3+3=7 of {1,3,3,3,5}; as far from 9 or farther: 7 (3 ways) and 11 (3
    ways), so p = 6/10.
    """
    found = separation_of([1, 2, 2], [2, 3])
    assert found is not None
    assert (found.higher, found.pairs) == (1.0, 6)
    assert found.p == pytest.approx(0.6)


def test_all_alike_tells_nothing() -> None:
    found = separation_of([2.0, 2.0], [2.0, 2.0, 2.0])
    assert found is not None
    assert (found.share, found.p, found.strength) == (0.5, 1.0, 0.0)


def test_without_poor_swings_there_is_nothing_to_tell_apart() -> None:
    assert separation_of([1.0], []) is None
    assert separation_of([], [1.0]) is None


def test_holm_s_rule_on_a_published_example() -> None:
    """0.01, 0.04, 0.03, 0.005 become 0.03, 0.06, 0.06, 0.02 (the example of the Wikipedia article
    on the Holm-Bonferroni method, its adjusted values by R's p.adjust; from memory).
    """
    assert holm([0.01, 0.04, 0.03, 0.005]) == pytest.approx([0.03, 0.06, 0.06, 0.02])
    assert holm([]) == ()


@given(st.lists(st.floats(0, 1), max_size=12))
def test_adjusting_never_lowers_never_passes_one_and_keeps_the_order(p: list[float]) -> None:
    adjusted = holm(p)
    assert all(a <= b <= 1 for a, b in zip(p, adjusted, strict=True))
    order = sorted(range(len(p)), key=lambda k: p[k])
    assert [adjusted[k] for k in order] == sorted(adjusted)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.integers(0, 9).map(float), min_size=1, max_size=6),
    st.lists(st.integers(0, 9).map(float), min_size=1, max_size=6),
)
def test_the_share_is_the_count_of_pairs(good: list[float], poor: list[float]) -> None:
    found = separation_of(good, poor)
    assert found is not None
    counted = sum((g > p) + 0.5 * (g == p) for g in good for p in poor)
    assert found.higher == counted
    assert 0 < found.p <= 1
