"""Scale by stick and board, and lenses, against a stick golfer seen through a known pinhole."""

from dataclasses import replace

import numpy as np
import pytest

from baycue.bay.board import HEIGHT_M, WIDTH_M, BoardSeen
from baycue.bay.stick import StickSeen
from baycue.measures.catalogue import measure_named
from baycue.measures.evidence import Camera, SwingEvidence
from baycue.measures.lens import lean_deg, stretch_share
from baycue.measures.ruler import Ruler
from baycue.measures.scale import SCALE_SIGMA_SHARE, by_ruler, scale_line, scale_of
from baycue.measures.when import When
from baycue.plan.camera_facts import Lens, ScaleBy
from baycue.swing.swing import CheckpointName
from tests.canned_evidence import Filmed, evidence_of
from tests.stick_golfer import Pinhole, StickGolfer

CAMERA = Pinhole(distance_m=3.6, aside_m=0.2)
TRUE_PX_PER_M = CAMERA.known.focal_px / CAMERA.distance_m
TOES_M = 0.105 * 1.78


def with_ruler(ruler: Ruler, stature_told_m: float = 1.78) -> SwingEvidence:
    evidence = evidence_of(Filmed(StickGolfer(1.78), CAMERA, fps=30))
    return replace(evidence, ruler=ruler, stature_m=stature_told_m)


def board(size: float = 1.0, told: float = 1.0) -> Ruler:
    """A board printed at that size, standing in line with the ankles beside the lead foot."""
    left, right = 0.45 - size * WIDTH_M / 2, 0.45 + size * WIDTH_M / 2
    foot, head = 0.05, 0.05 + size * HEIGHT_M
    corners = np.array([[left, head, 0], [right, head, 0], [right, foot, 0], [left, foot, 0]])
    seen = BoardSeen(CAMERA.seen_px(corners), 0.95)
    return Ruler(ScaleBy.BOARD, board=seen, printed_share=told)


def stick(length_m: float = 1.0, gap_m: float | None = 0.05, told_m: float = 1.0) -> Ruler:
    """A stick on the mat, so far before the toes."""
    z = TOES_M + (0.05 if gap_m is None else gap_m)
    ends = CAMERA.seen_px(np.array([[-length_m / 2, 0, z], [length_m / 2, 0, z]]))
    seen = StickSeen(ends, 50.0)
    return Ruler(ScaleBy.STICK, stick=seen, stick_length_m=told_m, stick_in_front_m=gap_m)


def test_the_board_tells_pixels_per_metre_at_the_ankles() -> None:
    told = by_ruler(with_ruler(board()))
    assert told is not None
    assert told.px_per_m == pytest.approx(TRUE_PX_PER_M, rel=2e-3)
    assert 0.01 < told.share < 0.03


@pytest.mark.parametrize("gap_m", [0.0, 0.05, 0.20, None])
def test_the_stick_is_carried_back_to_the_ankles(gap_m: float | None) -> None:
    told = by_ruler(with_ruler(stick(gap_m=gap_m)))
    assert told is not None
    assert told.px_per_m == pytest.approx(TRUE_PX_PER_M, rel=0.01)
    assert 0.01 < told.share < 0.04


def test_a_stated_gap_is_surer_than_the_usual_one() -> None:
    stated, usual = (by_ruler(with_ruler(stick(gap_m=gap))) for gap in (0.05, None))
    assert stated is not None
    assert usual is not None
    assert stated.share < usual.share


@pytest.mark.parametrize("ruler", [board(), stick()], ids=["board", "stick"])
def test_a_ruler_mends_a_stature_told_wrong(ruler: Ruler) -> None:
    """6 % too tall: by stature alone that is the error; with a ruler a quarter of it."""
    alone = scale_of(with_ruler(Ruler(), 1.06 * 1.78))
    mended = scale_of(with_ruler(ruler, 1.06 * 1.78))
    right = scale_of(with_ruler(Ruler())).px_per_m
    assert alone.px_per_m == pytest.approx(right / 1.06)
    assert abs(mended.px_per_m / TRUE_PX_PER_M - 1) < 0.025
    assert mended.by is ruler.by
    assert mended.sigma_share < SCALE_SIGMA_SHARE / 1.5
    assert mended.metres_per_model_metre * mended.px_per_m == pytest.approx(
        alone.metres_per_model_metre * alone.px_per_m
    )


def test_a_board_printed_small_is_right_when_its_line_is_told() -> None:
    told = by_ruler(with_ruler(board(size=0.95, told=0.95)))
    untold = by_ruler(with_ruler(board(size=0.95)))
    assert told is not None
    assert untold is not None
    assert told.px_per_m == pytest.approx(TRUE_PX_PER_M, rel=2e-3)
    assert untold.px_per_m == pytest.approx(0.95 * TRUE_PX_PER_M, rel=2e-3)


def test_a_ruler_that_contradicts_the_body_is_left_out_and_that_is_said() -> None:
    evidence = with_ruler(stick(length_m=1.4))
    scale = scale_of(evidence)
    assert scale == scale_of(with_ruler(Ruler()))
    assert scale.by is ScaleBy.STATURE
    assert scale_line(evidence).startswith("The stick does not agree with the stature: metres")


@pytest.mark.parametrize("by", [ScaleBy.STICK, ScaleBy.BOARD])
def test_a_ruler_that_was_not_seen_falls_back_to_stature_and_that_is_said(by: ScaleBy) -> None:
    evidence = with_ruler(Ruler(by))
    assert scale_of(evidence) == scale_of(with_ruler(Ruler()))
    assert scale_line(evidence).startswith(f"The {by.value} was not found in the picture: metres")


def test_the_line_says_what_told_and_how_surely() -> None:
    assert scale_line(with_ruler(Ruler())) == (
        "Metres come from the golfer's stature, give or take 4.0%."
    )
    assert scale_line(with_ruler(board())).startswith("Metres come from the board, give or take 1.")


def test_a_surer_scale_is_a_surer_measure() -> None:
    measure = measure_named("head rise")
    assert measure is not None
    golfer = StickGolfer(head_m=lambda t: float(np.interp(t, [-0.9, -0.4], [0.0, 0.25])))
    when = When(CheckpointName.ADDRESS, CheckpointName.IMPACT)
    plain = evidence_of(Filmed(golfer, CAMERA, fps=30))
    ruled = replace(plain, ruler=board())
    by_stature, by_board = (measure.take(e, when) for e in (plain, ruled))
    assert by_board.value == pytest.approx(by_stature.value, rel=0.06)
    gone = by_stature.sigma**2 - by_board.sigma**2
    shares = scale_of(plain).sigma_share ** 2 - scale_of(ruled).sigma_share ** 2
    assert gone == pytest.approx(0.25**2 * shares, rel=0.15)


def bowed(camera: Camera, places_px: np.ndarray) -> np.ndarray:
    """The places as the lens shows them: r (1 - bow r^2), r in half-widths (Brown 1971)."""
    middle = np.array([camera.width_px, camera.height_px]) / 2
    from_middle = (places_px - middle) / (camera.width_px / 2)
    squares = (from_middle**2).sum(axis=1, keepdims=True)
    shown = from_middle * (1 - camera.lens_bow * squares)
    return np.asarray(shown * camera.width_px / 2 + middle)


@pytest.mark.parametrize("lens", [Lens.WIDE, Lens.FISHEYE])
@pytest.mark.parametrize("place", [(900.0, 600.0), (1100.0, 360.0), (500.0, 100.0)])
def test_stretch_and_lean_are_those_of_brown_s_model(
    lens: Lens, place: tuple[float, float]
) -> None:
    """Differences over a pixel of the formula itself."""
    camera, at = Camera(1280, 720, 70.0, lens.bow), np.array(place)
    out = (at - [640, 360]) / np.linalg.norm(at - [640, 360])
    round_ = np.array([-out[1], out[0]])
    shown = bowed(camera, np.array([at, at + out, at + round_, at + np.array([0, 1])]))
    along, across, down = shown[1:] - shown[0]
    apart = float(np.linalg.norm(across) - np.linalg.norm(along))
    assert stretch_share(camera, at[None]) == pytest.approx(apart, abs=0.004)
    lean = abs(float(np.degrees(np.arctan2(down[0], down[1]))))
    assert lean_deg(camera, at) == pytest.approx(lean, rel=0.35, abs=0.05)


def test_a_lens_that_bows_widens_the_measure_and_more_so_off_the_middle() -> None:
    measure = measure_named("knee past ankle")
    assert measure is not None
    when = When(CheckpointName.P6, CheckpointName.P6)
    widths = {}
    for aside_m in (0.0, 0.7):
        plain = evidence_of(Filmed(StickGolfer(), Pinhole(aside_m=aside_m)))
        for lens in Lens:
            bent = replace(plain, camera=replace(plain.camera, lens_bow=lens.bow))
            widths[aside_m, lens] = measure.take(bent, when).sigma
    for aside_m in (0.0, 0.7):
        in_order = [widths[aside_m, lens] for lens in Lens]
        assert in_order == sorted(set(in_order))
    assert widths[0.7, Lens.FISHEYE] > 1.2 * widths[0.0, Lens.FISHEYE]
    assert widths[0.7, Lens.NORMAL] < 1.1 * widths[0.0, Lens.NORMAL]
