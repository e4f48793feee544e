"""Each measure against a stick golfer projected by OpenCV (``cv2.projectPoints``).

Where the measure carries a calibration of the pose model, which an exact pinhole has no need
of, the tolerance is stated and wide enough for it.
"""

from dataclasses import replace

import numpy as np
import pytest

from baycue.club.reading import Evidence, ShaftReading
from baycue.measures.calibration import HEAD, KNEE
from baycue.measures.catalogue import measure_named
from baycue.measures.evidence import Camera, SwingEvidence
from baycue.measures.measurement import Measurement, NotMeasuredError
from baycue.measures.scale import SCALE_SIGMA_SHARE, address_poses, scale_of
from baycue.measures.when import When
from baycue.plan.stance import Handedness, View
from baycue.pose.pose import Landmark, Pose
from baycue.swing.swing import Checkpoint, CheckpointName, Swing
from tests.canned_evidence import Filmed, evidence_of
from tests.canned_readings import ns, true_times_s
from tests.canned_swing import BACKSWING_S
from tests.stick_golfer import Pinhole, StickGolfer, down_the_line

P6, ADDRESS, IMPACT = CheckpointName.P6, CheckpointName.ADDRESS, CheckpointName.IMPACT
KNEE_TOLERANCE_M, HEAD_TOLERANCE_M = 0.025, 0.010
CENTRED, ASIDE_M = 0.0, 0.4


def take(name: str, evidence: SwingEvidence, when: When | None = None) -> Measurement:
    measure = measure_named(name)
    assert measure is not None
    return measure.take(evidence, when or When())


def knee_at_p6(knee_m: float, aside_m: float = CENTRED, mirrored: bool = False) -> Measurement:
    golfer = StickGolfer(knee_m=lambda _t: knee_m)
    filmed = Filmed(golfer, Pinhole(aside_m=aside_m), mirrored=mirrored)
    return take("knee past ankle", overdrawn(evidence_of(filmed)), When(P6, P6))


def overdrawn(evidence: SwingEvidence) -> SwingEvidence:
    """The lead knee as much too near the camera as the calibration takes the model to draw it."""
    knee, ankle = evidence.stance.lead.knee, evidence.stance.lead.ankle

    def drawn(pose: Pose) -> Pose:
        world_m = pose.world_m.copy()
        nearer = world_m[knee, 2] - world_m[ankle, 2]
        world_m[knee, 2] = world_m[ankle, 2] + nearer / KNEE.depth_share
        return replace(pose, world_m=world_m)

    return replace(evidence, poses=tuple(drawn(p) for p in evidence.poses))


@pytest.mark.parametrize("mirrored", [False, True], ids=["plain", "mirrored"])
@pytest.mark.parametrize("aside_m", [-ASIDE_M, CENTRED, ASIDE_M])
@pytest.mark.parametrize("knee_m", [-0.04, 0.0, 0.02, 0.05])
def test_knee_past_ankle_is_measured(knee_m: float, aside_m: float, mirrored: bool) -> None:
    """Within 25 mm: a gain and an offset for the pose model, which a pinhole has no need of."""
    got = knee_at_p6(knee_m, aside_m, mirrored)
    assert got.value == pytest.approx(knee_m, abs=KNEE_TOLERANCE_M)


@pytest.mark.parametrize("aside_m", [-ASIDE_M, CENTRED, ASIDE_M])
def test_a_centimetre_of_knee_is_about_a_centimetre(aside_m: float) -> None:
    knees = np.arange(-0.04, 0.081, 0.02)
    read = [knee_at_p6(float(k), aside_m).value for k in knees]
    slopes = np.diff(read) / np.diff(knees)
    assert np.all((slopes > 0.8) & (slopes < 1.4))


def test_standing_aside_hardly_changes_the_knee() -> None:
    """A knee 10 cm nearer than the ankle would shift by 11 mm if depth were forgotten."""
    depth_m, distance_m = 0.10, Pinhole().distance_m
    assert ASIDE_M * depth_m / distance_m == pytest.approx(0.011, abs=0.001)
    middle = knee_at_p6(0.03).value
    for aside_m in (-ASIDE_M, ASIDE_M):
        assert abs(knee_at_p6(0.03, aside_m).value - middle) < 0.007


def test_the_knee_is_taken_at_the_moment_asked() -> None:
    """A knee that goes forward at 0.4 m/s: between P5 and P6 it gains what the clock says."""
    golfer = StickGolfer(knee_m=lambda t: 0.4 * (max(t, 0.0) - 0.2))
    evidence = evidence_of(Filmed(golfer))
    p5 = take("knee past ankle", evidence, When(CheckpointName.P5, CheckpointName.P5)).value
    p6 = take("knee past ankle", evidence, When(P6, P6)).value
    went_m = 0.4 * (true_times_s()["P6"] - true_times_s()["P5"])
    assert (p6 - p5) / went_m == pytest.approx(1.1, abs=0.3)


def test_an_unsure_moment_of_a_moving_knee_is_an_unsure_knee() -> None:
    golfer = StickGolfer(knee_m=lambda t: 0.4 * (max(t, 0.0) - 0.2))
    evidence = evidence_of(Filmed(golfer))
    vague = Swing(1, tuple(replace(c, sigma_ns=50_000_000) for c in evidence.swing.checkpoints))
    sure = take("knee past ankle", evidence, When(P6, P6)).sigma
    unsure = take("knee past ankle", replace(evidence, swing=vague), When(P6, P6)).sigma
    assert unsure == pytest.approx(np.hypot(sure, 0.4 * 0.05), rel=0.25)


def head_rise(rise_m: float, camera: Pinhole, view: View, hand: Handedness) -> Measurement:
    golfer = StickGolfer(head_m=lambda t: float(np.interp(t, [-0.9, -0.4], [0.0, rise_m])))
    evidence = evidence_of(Filmed(golfer, camera, hand, view=view))
    return take("head rise", evidence, When(ADDRESS, IMPACT))


@pytest.mark.parametrize("hand", Handedness)
@pytest.mark.parametrize("rise_m", [-0.06, 0.0, 0.03, 0.06])
@pytest.mark.parametrize("aside_m", [CENTRED, ASIDE_M])
def test_head_rise_face_on(rise_m: float, aside_m: float, hand: Handedness) -> None:
    got = head_rise(rise_m, Pinhole(aside_m=aside_m), View.FACE_ON, hand)
    assert got.value == pytest.approx(rise_m, abs=HEAD_TOLERANCE_M)
    assert rise_m == 0 or np.sign(got.value) == np.sign(rise_m)


@pytest.mark.parametrize("height_m", [0.6, 1.6])
@pytest.mark.parametrize("name", [CheckpointName.TOP, CheckpointName.P6, IMPACT])
def test_ears_drawn_where_they_are_are_told_lower_by_what_the_model_draws_too_high(
    name: CheckpointName, height_m: float
) -> None:
    """Seen face-on and against address only, by about the calibration's share of stature.

    What it draws nearer a camera below the head shows as height: plane geometry.
    """
    evidence = evidence_of(Filmed(camera=Pinhole(height_m=height_m)))
    ears_px = evidence.track_px(Landmark.LEFT_EAR, Landmark.RIGHT_EAR)[0]
    up = np.arctan((evidence.camera.height_px / 2 - ears_px[1]) / evidence.camera.focal_px)
    share = HEAD.too_high_share[name.value] + np.sin(up) * HEAD.nearer_share[name.value]
    lower_m = HEAD.gain * share * evidence.stature_m
    got = take("head rise", evidence, When(ADDRESS, name))
    assert got.value == pytest.approx(-lower_m, abs=0.004)
    behind = evidence_of(Filmed(camera=down_the_line(), view=View.DOWN_THE_LINE))
    assert take("head rise", behind, When(ADDRESS, CheckpointName.TOP)).value == pytest.approx(
        0.0, abs=HEAD_TOLERANCE_M
    )


@pytest.mark.parametrize("rise_m", [-0.06, 0.0, 0.06])
def test_head_rise_down_the_line(rise_m: float) -> None:
    got = head_rise(rise_m, down_the_line(), View.DOWN_THE_LINE, Handedness.RIGHT)
    assert got.value == pytest.approx(rise_m, abs=HEAD_TOLERANCE_M)


def test_a_long_rise_is_as_unsure_as_the_scale() -> None:
    still, long = (
        head_rise(rise_m, Pinhole(), View.FACE_ON, Handedness.RIGHT) for rise_m in (0.0, 0.25)
    )
    added = np.sqrt(long.sigma**2 - still.sigma**2)
    assert added == pytest.approx(0.25 * SCALE_SIGMA_SHARE, rel=0.3)


def test_a_rise_between_other_checkpoints_starts_there() -> None:
    golfer = StickGolfer(head_m=lambda t: -0.05 if t > -0.4 else 0.0)
    evidence = evidence_of(Filmed(golfer))
    later = take("head rise", evidence, When(CheckpointName.TOP, IMPACT)).value
    drawn_m = HEAD.gain * HEAD.too_high_share["top"] * evidence.stature_m
    assert later == pytest.approx(drawn_m, abs=0.005)
    assert take("head rise", evidence, When(ADDRESS, IMPACT)).value < -0.03


def timed(takeaway_s: float, top_s: float, impact_s: float, sigma_s: float = 0.01) -> SwingEvidence:
    times = {"takeaway": takeaway_s, "top": top_s, "impact": impact_s}
    found = (Checkpoint(CheckpointName(n), ns(t), round(sigma_s * 1e9)) for n, t in times.items())
    return replace(evidence_of(Filmed(fps=30)), swing=Swing(1, tuple(found)))


@pytest.mark.parametrize(
    ("back_s", "down_s", "ratio"), [(0.9, 0.3, 3.0), (0.7, 0.28, 2.5), (0.75, 0.25, 3.0)]
)
def test_tempo_is_backswing_over_downswing(back_s: float, down_s: float, ratio: float) -> None:
    assert take("tempo", timed(-back_s, 0.0, down_s)).value == pytest.approx(ratio)


def test_the_canned_swings_tempo() -> None:
    """Near 3 for good players (Grober & Cholewicki 2006, arXiv physics/0611291; from memory)."""
    got = take("tempo", evidence_of(Filmed()))
    assert got.value == pytest.approx(BACKSWING_S / true_times_s()["impact"], rel=1e-6)
    assert 2 < got.value < 4


def test_tempos_sigma_is_that_of_its_three_times() -> None:
    """Reference: 20,000 draws of the three times with numpy."""
    rng = np.random.default_rng(8)
    takeaway, top, impact = rng.normal([[-0.9], [0.0], [0.3]], 0.01, (3, 20_000))
    drawn = float(np.std((top - takeaway) / (impact - top)))
    assert take("tempo", timed(-0.9, 0.0, 0.3)).sigma == pytest.approx(drawn, rel=0.05)


@pytest.mark.parametrize("name", ["takeaway", "top", "impact"])
def test_tempo_needs_its_three_times(name: str) -> None:
    evidence = timed(-0.9, 0.0, 0.3)
    rest = tuple(c for c in evidence.swing.checkpoints if c.name.value != name)
    with pytest.raises(NotMeasuredError, match=f"{name} was not found"):
        take("tempo", replace(evidence, swing=Swing(1, rest)))


@pytest.mark.parametrize("stature_m", [1.55, 1.78, 1.95])
@pytest.mark.parametrize("distance_m", [2.8, 3.6, 5.0])
def test_the_scale_comes_from_stature(stature_m: float, distance_m: float) -> None:
    """A pinhole shows a metre at distance d as focal / d pixels; to 6 %.

    The golfer is Drillis & Contini 1966 as printed in Winter 2009, fig. 4.1.
    """
    camera = Pinhole(distance_m)
    scale = scale_of(evidence_of(Filmed(StickGolfer(stature_m), camera, fps=30)))
    assert scale.px_per_m == pytest.approx(camera.known.focal_px / distance_m, rel=0.06)
    assert scale.metres_per_model_metre == pytest.approx(1.0, abs=0.02)


def test_the_pose_models_own_metres_cancel_out() -> None:
    evidence = evidence_of(Filmed())
    short = replace(
        evidence, poses=tuple(replace(p, world_m=0.8 * p.world_m) for p in evidence.poses)
    )
    assert scale_of(short).px_per_m == pytest.approx(scale_of(evidence).px_per_m)
    assert scale_of(short).metres_per_model_metre == pytest.approx(
        scale_of(evidence).metres_per_model_metre / 0.8
    )


def test_a_stature_told_wrong_scales_all_lengths_by_as_much() -> None:
    golfer = StickGolfer(head_m=lambda t: 0.05 if t > -0.4 else 0.0)
    evidence = evidence_of(Filmed(golfer))
    taller = replace(evidence, stature_m=1.1 * evidence.stature_m)
    one, other = (take("head rise", e, When(ADDRESS, IMPACT)) for e in (evidence, taller))
    assert other.value == pytest.approx(1.1 * one.value)
    assert other.sigma > SCALE_SIGMA_SHARE * other.value


def test_only_poses_up_to_the_takeaway_stand_at_address() -> None:
    evidence = evidence_of(Filmed())
    standing = address_poses(evidence)
    assert standing[-1].stamp_ns <= ns(-BACKSWING_S)
    assert standing == evidence.poses[: len(standing)]
    assert evidence.poses[len(standing)].stamp_ns > ns(-BACKSWING_S)
    assert len(address_poses(replace(evidence, swing=Swing(1, ())))) == 1


def test_a_cameras_focal_length_from_its_field_of_view() -> None:
    """Half the picture over the tangent of half the angle: a 90 degree lens, 500 px."""
    assert Camera(1000, 600, 90.0).focal_px == pytest.approx(500)
    assert Camera(1920, 1080, 70.0).focal_px == pytest.approx(960 / np.tan(np.radians(35)))


def test_evidence_tells_tracks_and_how_often_the_shaft_was_seen() -> None:
    evidence = evidence_of(Filmed(fps=30))
    ankles = evidence.track_px(Landmark.LEFT_ANKLE, Landmark.RIGHT_ANKLE)
    assert ankles.shape == (len(evidence.poses), 2)
    assert ankles[0] == pytest.approx(evidence.poses[0].pixels[[27, 28]].mean(axis=0))
    assert evidence.track_world_m(Landmark.NOSE)[3] == pytest.approx(evidence.poses[3].world_m[0])
    assert np.diff(evidence.times_s) == pytest.approx(np.full(len(evidence.poses) - 1, 1 / 30))
    kinds = [Evidence.PICTURE if k % 4 == 0 else Evidence.PATH for k in range(len(evidence.poses))]
    shaft = tuple(ShaftReading(k, k, 0.0, 1.0, 0.0, kind) for k, kind in enumerate(kinds))
    assert replace(evidence, shaft=shaft).shaft_seen_share == pytest.approx(0.25, abs=0.02)
