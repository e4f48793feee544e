"""One track taken in every way there is; the courses are formulas, so the answers are known."""

from dataclasses import replace

import numpy as np
import pytest

from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.measure import Measure, Zero
from baycue.measures.measurement import Measurement, NotMeasuredError, Unit
from baycue.measures.take import take
from baycue.measures.track import Company, Frames, Known, Smooth, Sum, Track, frames
from baycue.measures.when import Extreme, When
from baycue.plan.stance import View
from baycue.swing.curve import Curve
from baycue.swing.swing import Checkpoint, CheckpointName, Swing
from tests.canned_evidence import SIGMA_NS, Filmed, evidence_of
from tests.canned_readings import ns, true_times_s

ADDRESS, TOP, P6, IMPACT = (CheckpointName(n) for n in ("address", "top", "P6", "impact"))
SPAN = When(TOP, IMPACT, Extreme.LARGEST)
EVIDENCE = evidence_of(Filmed())
TIMING_S = SIGMA_NS * 1e-9


def course(values: FloatArray) -> Frames:
    return frames(EVIDENCE, values, half_width_s=0.05, degree=2)


def since_top_s() -> FloatArray:
    return EVIDENCE.times_s - ns(0.0) * 1e-9


RAMP = Track(course(0.4 * since_top_s()), each_sigma=0.0)
"""0.4 a second, nothing at the top."""


def test_at_a_checkpoint_it_is_the_value_there() -> None:
    got = take(EVIDENCE, RAMP, When(P6, P6))
    assert got.value == pytest.approx(0.4 * true_times_s()["P6"], abs=1e-6)
    assert got.sigma == pytest.approx(0.4 * TIMING_S, rel=1e-3)


def test_a_change_is_the_difference_and_both_moments_are_unsure() -> None:
    got = take(EVIDENCE, RAMP, When(TOP, P6))
    assert got.value == pytest.approx(0.4 * true_times_s()["P6"], abs=1e-6)
    assert got.sigma == pytest.approx(0.4 * TIMING_S * np.sqrt(2), rel=1e-3)


def test_what_all_moments_are_off_by_cancels_in_a_change() -> None:
    track = replace(RAMP, each_sigma=0.003, shared_sigma=0.02)
    at, change = (take(EVIDENCE, track, w).sigma for w in (When(P6, P6), When(TOP, P6)))
    assert at == pytest.approx(np.linalg.norm([0.4 * TIMING_S, 0.003, 0.02]), rel=1e-3)
    assert change == pytest.approx(np.linalg.norm([0.4 * TIMING_S, 0.003] * 2), rel=1e-3)


def test_a_length_is_as_unsure_as_the_scale() -> None:
    long = Track(course(np.full(len(EVIDENCE.poses), 2.0)), each_sigma=0.0, sigma_share=0.04)
    assert take(EVIDENCE, long, When(P6, P6)).sigma == pytest.approx(0.08, rel=1e-3)
    assert take(EVIDENCE, long, When(TOP, P6)).sigma == pytest.approx(0.0, abs=1e-6)


def test_somebody_close_behind_widens_each_moment() -> None:
    track = replace(RAMP, each_sigma=0.01)
    beside = replace(EVIDENCE, beside_bodies2=1.0)
    alone, together = (take(e, track, When(P6, P6)).sigma for e in (EVIDENCE, beside))
    assert together == pytest.approx(beside.company_factor * alone, rel=0.01)


def in_company(left_out: slice) -> Frames:
    """A noisy course with somebody close behind, of which some frames are left out."""
    noisy = course(np.random.default_rng(1).normal(0, 0.002, len(EVIDENCE.poses)))
    kept = np.ones(len(EVIDENCE.poses), dtype=bool)
    kept[left_out] = False
    return replace(noisy, kept=kept, company=Company())


def test_in_company_frames_that_had_to_be_left_out_make_all_others_less_sure() -> None:
    p6_s = true_times_s()["P6"] + ns(0.0) * 1e-9
    astray, whole = in_company(slice(20, 24)), in_company(slice(0, 0))
    alone = replace(whole, company=None)
    assert whole.at(p6_s) == alone.at(p6_s)
    assert astray.at(p6_s).value == pytest.approx(alone.at(p6_s).value, abs=1e-12)
    assert 2.0 < astray.at(p6_s).sigma / alone.at(p6_s).sigma < 3.0
    assert astray.over(np.array([p6_s])).sigmas[0] == astray.at(p6_s).sigma


def test_in_company_a_moment_with_most_frames_left_out_is_not_measured() -> None:
    p6_s = true_times_s()["P6"] + ns(0.0) * 1e-9
    near = np.flatnonzero(np.abs(EVIDENCE.times_s - p6_s) <= 0.05)
    lost = in_company(slice(near[0], near[-1]))
    with pytest.raises(NotMeasuredError, match="was lost there"):
        lost.at(p6_s)
    assert np.isfinite(replace(lost, company=None).at(p6_s).value)


def test_in_company_who_walks_at_address_is_not_measured() -> None:
    walks = course(1.1 * since_top_s())
    with pytest.raises(NotMeasuredError, match="stand still at address"):
        replace(walks, company=Company(walks.values)).still(walks.times_s[15])
    assert np.isfinite(walks.still(walks.times_s[15]).value)


def test_at_address_it_is_the_middle_over_the_time_of_standing_still() -> None:
    """One wild frame at address changes nothing."""
    values = np.zeros(len(EVIDENCE.poses))
    values[8] = 1.0
    assert take(EVIDENCE, Track(course(values), 0.0), When(ADDRESS, ADDRESS)).value == 0.0


def test_a_turned_body_is_less_sure_at_the_top_and_not_from_p6_on() -> None:
    flat = Track(course(np.zeros(len(EVIDENCE.poses))), each_sigma=0.003, turned_sigma=0.04)
    top, p5, p6, impact = (
        take(EVIDENCE, flat, When(name, name)).sigma
        for name in (TOP, CheckpointName.P5, P6, IMPACT)
    )
    assert top == pytest.approx(np.hypot(0.003, 0.04))
    assert 0.5 * top < p5 < top
    assert (p6, impact) == pytest.approx((0.003, 0.003))


def test_where_the_quantity_tells_the_moment_the_moments_spread_is_not_added() -> None:
    told = replace(RAMP, told_by={P6: 0.007})
    assert take(EVIDENCE, told, When(P6, P6)).sigma == pytest.approx(0.007)
    impact = When(IMPACT, IMPACT)
    assert take(EVIDENCE, told, impact) == take(EVIDENCE, RAMP, impact)


def test_courses_add_up_with_their_weights() -> None:
    ramp, flat = course(0.4 * since_top_s()), course(np.full(len(EVIDENCE.poses), 0.1))
    got = take(EVIDENCE, Track(Sum(((1.0, ramp), (-2.0, flat))), 0.0), When(P6, P6))
    assert got.value == pytest.approx(0.4 * true_times_s()["P6"] - 0.2, abs=1e-6)
    assert got.sigma == pytest.approx(0.4 * TIMING_S, rel=1e-3)


def test_a_known_course_is_taken_off_at_the_moment_itself_and_without_noise() -> None:
    """Straight between its points, and as it is at its ends before and after them."""
    top_s, p6_s = ns(0.0) * 1e-9, ns(true_times_s()["P6"]) * 1e-9
    known = Known(np.array([top_s, top_s + 2 * (p6_s - top_s)]), np.array([0.1, 0.3]))
    less = Track(Sum(((1.0, RAMP.course), (-1.0, known))), 0.0)
    for when, off in ((When(P6, P6), 0.2), (When(ADDRESS, ADDRESS), 0.1), (When(TOP, P6), 0.1)):
        assert take(EVIDENCE, less, when).value == pytest.approx(
            take(EVIDENCE, RAMP, when).value - off, abs=1e-6
        )
    steeper = 0.4 - 0.1 / (p6_s - top_s)
    unsure = take(EVIDENCE, less, When(P6, P6)).sigma
    assert unsure == pytest.approx(abs(steeper) * TIMING_S, rel=1e-3)
    assert known.over(np.array([top_s - 1, p6_s + 9])).values == pytest.approx([0.1, 0.3])
    assert known.over(np.array([top_s - 1, p6_s + 9])).rates == pytest.approx([0.0, 0.0])


HUMP_AT_S = 0.12


def hump(height: float) -> FloatArray:
    """A parabola, highest 0.12 s after the top."""
    return np.asarray(height - 2.0 * (since_top_s() - HUMP_AT_S) ** 2)


def test_the_largest_over_a_span_is_the_humps_top() -> None:
    track = Track(course(hump(0.05)), 0.0)
    got = take(EVIDENCE, track, SPAN)
    assert got.value == pytest.approx(0.05, abs=2e-4)
    assert got.sigma < 0.001


def test_the_least_is_the_other_way_round() -> None:
    up, down = Track(course(hump(0.05)), 0.0), Track(course(-hump(0.05)), 0.0)
    least = replace(SPAN, extreme=Extreme.LEAST)
    assert take(EVIDENCE, down, least).value == pytest.approx(-take(EVIDENCE, up, SPAN).value)


@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_the_furthest_keeps_its_sign(sign: float) -> None:
    track = Track(course(sign * hump(0.05)), 0.0)
    furthest = replace(SPAN, extreme=Extreme.FURTHEST)
    assert take(EVIDENCE, track, furthest).value == pytest.approx(sign * 0.05, abs=2e-4)


def test_a_span_may_be_counted_from_the_value_at_a_checkpoint() -> None:
    track = Track(course(hump(0.05) + 7.0), 0.0, shared_sigma=1.0)
    got = take(EVIDENCE, track, replace(SPAN, against=TOP))
    assert got.value == pytest.approx(2.0 * HUMP_AT_S**2, abs=3e-4)
    assert got.sigma < 0.01, "what is shared cancels"


def test_the_largest_at_the_end_of_a_span_is_as_unsure_as_that_end() -> None:
    got = take(EVIDENCE, RAMP, SPAN)
    assert got.value == pytest.approx(0.4 * true_times_s()["impact"], abs=1e-4)
    assert got.sigma == pytest.approx(0.4 * TIMING_S, rel=0.05)


def test_the_largest_of_a_noisy_flat_track_is_not_its_noise() -> None:
    """200 noisy copies of nothing: RMS of what is said within the stated sigma; invented noise."""
    rng, said = np.random.default_rng(5), []
    for _ in range(200):
        values = rng.normal(0, 0.01, len(EVIDENCE.poses))
        got = take(EVIDENCE, Track(course(values), 0.0), replace(SPAN, start=ADDRESS))
        said.append((got.value, got.sigma))
    values, sigmas = np.array(said).T
    assert np.sqrt(np.mean(values**2)) < 1.2 * np.mean(sigmas)
    assert (np.abs(values) <= 2 * sigmas).mean() > 0.9


def test_a_smooth_curve_is_a_course_too() -> None:
    times = EVIDENCE.times_s
    curve = Curve(times, 90 * since_top_s(), np.full(len(times), 90.0), np.full(len(times), 2.0))
    got = take(EVIDENCE, Track(Smooth(curve), 0.0), When(P6, P6))
    assert got.value == pytest.approx(90 * true_times_s()["P6"])
    assert got.sigma == pytest.approx(np.hypot(2.0, 90 * TIMING_S))
    still = take(EVIDENCE, Track(Smooth(curve), 0.0), When(ADDRESS, ADDRESS))
    assert still.sigma == pytest.approx(2.0)


def whole(when: When, zero: Zero) -> Measurement:
    measure = Measure(
        "ramp", "A ramp.", "up", Unit.METRE, frozenset(View), track=lambda _: RAMP, zero=zero
    )
    return measure.take(EVIDENCE, when)


def test_a_measure_counted_from_address_is_a_change_since_then() -> None:
    at_p6 = whole(When(P6, P6), Zero.ADDRESS)
    assert at_p6 == whole(When(ADDRESS, P6), Zero.OWN)
    assert whole(SPAN, Zero.ADDRESS) == whole(replace(SPAN, against=ADDRESS), Zero.OWN)
    assert whole(replace(SPAN, against=TOP), Zero.ADDRESS).value < whole(SPAN, Zero.ADDRESS).value


@pytest.mark.parametrize("gone", [TOP, IMPACT])
def test_a_span_needs_both_its_ends(gone: CheckpointName) -> None:
    kept = tuple(c for c in EVIDENCE.swing.checkpoints if c.name is not gone)
    with pytest.raises(NotMeasuredError, match=f"{gone.value} was not found"):
        take(without(kept), RAMP, SPAN)


def without(checkpoints: tuple[Checkpoint, ...]) -> SwingEvidence:
    return replace(EVIDENCE, swing=Swing(1, checkpoints))
