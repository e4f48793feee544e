"""What the live screen says, before any of it is drawn: plain words for each stage."""

from dataclasses import dataclass

from baycue.cues.keys import HELP, PRACTICE_HELP
from baycue.cues.practice_words import PracticePage, practice_page
from baycue.live.view import Health, LiveView, Stage
from baycue.replay.page import ReplayPage
from baycue.setup.report import SetUpReport
from baycue.verdict.verdict import SwingVerdict

_LARGE = {
    Stage.OFFLINE: ("CAMERA OFFLINE", "Nothing is watched now. Check the camera and its cable."),
    Stage.SET_UP: ("SET-UP", "Stand at the ball as for a swing and hold still."),
    Stage.WAITING: ("READY", "Stand to the ball and hold still for a moment."),
    Stage.ADDRESS: ("ADDRESS SEEN", "Swing when you are ready."),
    Stage.SWING: ("SWING", "Watching."),
    Stage.VERDICT: ("VERDICT", "Being worked out."),
    Stage.PAUSED: ("PAUSED", "Swings are not judged. Press Space to go on."),
}
_SMALL = {
    Stage.OFFLINE: "camera offline",
    Stage.SET_UP: "set-up",
    Stage.WAITING: "ready",
    Stage.ADDRESS: "address seen",
    Stage.SWING: "swing",
    Stage.VERDICT: "verdict",
    Stage.PAUSED: "paused",
}
_OVER_ALL = (Stage.OFFLINE, Stage.SET_UP, Stage.PAUSED)
"""Stages that are told in large words even where a verdict could be shown."""

UNSCORABLE = "NOT JUDGED"


@dataclass(frozen=True, slots=True)
class Message:
    """A page of large words: ``stage`` gives its mark; ``told`` is a sentence or two."""

    stage: Stage
    headline: str
    told: str


@dataclass(frozen=True, slots=True)
class VerdictPage:
    """The last verdict and how many swings passed."""

    verdict: SwingVerdict
    tally: str


MainPage = Message | VerdictPage | ReplayPage | SetUpReport | PracticePage


@dataclass(frozen=True, slots=True)
class Strip:
    """The foot of the screen: what is going on now.

    ``stage_word``, ``run``, ``notice`` and ``alarm`` are for the golfer at the ball; ``health``
    and ``help`` are small print for who stands at the screen.  ``alarm`` is empty if all is well.
    """

    stage: Stage
    stage_word: str
    run: str
    notice: str
    alarm: str
    health: str
    help: str = HELP


@dataclass(frozen=True, slots=True)
class LivePage:
    """All that is on the screen; two equal pages have the same pixels."""

    main: MainPage
    strip: Strip


def live_page(view: LiveView) -> LivePage:
    """What to show of a view."""
    return LivePage(_main(view), _strip(view))


def tally_words(passes: int, balls: int) -> str:
    """``7 of 12 passed``."""
    return f"{passes} of {balls} passed" if balls else ""


def run_words(run_of_passes: int) -> str:
    """``3 in a row``, from two on."""
    return f"{run_of_passes} in a row" if run_of_passes > 1 else ""


def health_words(health: Health) -> str:
    """Camera and sound in one line of small print."""
    rate = "rate not known yet" if health.camera_fps is None else f"{health.camera_fps:.0f} fps"
    dropped = f", {health.dropped_frames} dropped" if health.dropped_frames else ""
    camera = f"Camera {rate}{dropped}" if health.camera_online else "Camera offline"
    return f"{camera}.  {_sound_words(health)}"


def _sound_words(health: Health) -> str:
    if health.sound_ok:
        return f"Sound: {health.sound}" if health.sound else "Sound on"
    return f"No sound: {health.sound.removeprefix('no sound: ')}" if health.sound else "No sound"


def _main(view: LiveView) -> MainPage:
    if view.stage is Stage.SET_UP and view.set_up is not None:
        return view.set_up
    if view.stage not in _OVER_ALL:
        if view.unscorable:
            return Message(view.stage, UNSCORABLE, _sentence(view.unscorable))
        page = practice_page(view)
        if page is not None:
            return page
        if view.replay is not None and view.stage is Stage.VERDICT:
            return view.replay
        if view.verdict is not None:
            return VerdictPage(view.verdict, tally_words(view.passes, view.balls))
    headline, told = _LARGE[view.stage]
    return Message(view.stage, headline, told)


def _strip(view: LiveView) -> Strip:
    alarm = "" if view.stage is Stage.OFFLINE or view.health.camera_online else "camera offline"
    if not alarm and not view.health.sound_ok:
        alarm = "no sound"
    targets = f"Targets: {view.plan_name}.  " if view.plan_name else ""
    return Strip(
        stage=view.stage,
        stage_word=_SMALL[view.stage],
        run=_run(view),
        notice=view.notice or "",
        alarm=alarm,
        health=targets + health_words(view.health),
        help=PRACTICE_HELP if view.practice else HELP,
    )


def _run(view: LiveView) -> str:
    """How far the session is, if there is one; else the run of passes."""
    if view.practice is not None and not view.practice.is_over:
        return view.practice.place
    return run_words(view.run_of_passes)


def _sentence(words: str) -> str:
    text = words.strip()
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "!", "?")) else f"{text}."
