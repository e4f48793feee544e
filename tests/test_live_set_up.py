"""When the set-up is over."""

import pytest

from baycue.live.set_up import Readiness
from baycue.live.view import Stage
from baycue.setup.report import Answer, SetUpReport, SetUpRow

S = 1_000_000_000
GO = SetUpReport((SetUpRow("level", Answer.GO, "level"), SetUpRow("sound", Answer.UNSURE, "?")))
NO_GO = SetUpReport((SetUpRow("level", Answer.NO_GO, "leans", "Turn the camera."),))


def after(*reports: SetUpReport | None) -> Readiness:
    """Reports half a second apart, the first at 10 s."""
    ready = Readiness()
    for k, report in enumerate(reports):
        ready = ready.after(report, 10 * S + k * S // 2)
    return ready


def test_go_must_stand_for_two_seconds() -> None:
    ready = after(GO, GO)
    assert not ready.is_over(10 * S, Stage.ADDRESS)
    assert not ready.is_over(12 * S - 1, Stage.ADDRESS)
    assert ready.is_over(12 * S, Stage.ADDRESS)


@pytest.mark.parametrize("between", [NO_GO, None])
def test_a_no_go_between_starts_it_anew(between: SetUpReport | None) -> None:
    ready = after(GO, GO, between, GO)
    assert not ready.is_over(12 * S, Stage.ADDRESS)
    assert ready.is_over(13 * S + S // 2, Stage.ADDRESS)


@pytest.mark.parametrize(("report", "over"), [(None, True), (GO, True), (NO_GO, False)])
def test_a_swing_ends_it_unless_something_must_be_mended(
    report: SetUpReport | None, over: bool
) -> None:
    assert after(report).is_over(10 * S, Stage.SWING) is over


def test_before_any_report_it_goes_on() -> None:
    assert not Readiness().is_over(60 * S, Stage.ADDRESS)
    assert not after(NO_GO).is_over(60 * S, Stage.WAITING)
