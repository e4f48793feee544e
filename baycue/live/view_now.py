"""What the bay knows now, gathered from its parts for the big screen."""

import time

from baycue.capture.camera import CameraStatus
from baycue.cues.live_words import tally_words
from baycue.live.answers import Standing
from baycue.live.parts import Parts
from baycue.live.stage import shown_stage
from baycue.live.view import Health, LiveView, Stage


def view_now(parts: Parts, status: CameraStatus) -> LiveView:
    """As of now; the main thread asks."""
    golfer, checking = parts.analysis.stage, parts.setting_up
    at_address = golfer is Stage.ADDRESS and not parts.analysis.scoring
    standing = parts.answers.standing(at_address)
    paused, answered = parts.analysis.paused, standing.answered
    online = (status.online and not parts.troubles.pictures.blind) or status.ended
    stage = shown_stage(online, paused, checking is not None, golfer, answered)
    tally = tally_words(standing.tally.passes, standing.tally.balls)
    is_told = stage is Stage.VERDICT and answered
    replay = parts.again.shown(time.monotonic_ns(), standing.verdict, is_told, tally)
    return LiveView(
        stage=stage,
        verdict=standing.verdict,
        unscorable=standing.unscorable,
        run_of_passes=standing.tally.run_of_passes,
        passes=standing.tally.passes,
        balls=standing.tally.balls,
        plan_name=parts.plans.name,
        notice=_notice(parts, status, stage, standing),
        health=_health(parts, status, online, standing.sound_lost),
        set_up=checking.report if checking else None,
        summary=standing.summary,
        replay=replay,
        withheld=standing.withheld,
        practice=parts.practice.view() if parts.practice else None,
    )


def _notice(parts: Parts, status: CameraStatus, stage: Stage, standing: Standing) -> str | None:
    if status.trouble and not status.ended:
        return status.trouble
    if parts.troubles.pictures.words and not status.ended:
        return parts.troubles.pictures.words
    if stage is Stage.SET_UP:
        return "Go on as it is: press A."
    if standing.waits:
        return "The answer is ready: press A."
    plans = parts.plans.notice(time.monotonic_ns())
    if plans is not None:
        return plans
    if parts.practice is not None and parts.practice.note is not None:
        return parts.practice.note
    writing = parts.writer.words(time.monotonic_ns())
    if writing:
        return writing
    if parts.keeper.trouble and stage in (Stage.WAITING, Stage.ADDRESS):
        return parts.keeper.trouble
    return parts.listening.words if stage is Stage.VERDICT else None


def _health(parts: Parts, status: CameraStatus, online: bool, sound_lost: str | None) -> Health:
    speaker = parts.means.speaker
    return Health(
        camera_online=online,
        camera_fps=None if status.fps is None else round(status.fps),
        dropped_frames=status.dropped + parts.darkroom.damaged,
        sound_ok=speaker.is_alive and sound_lost is None,
        sound=sound_lost or speaker.describe(),
    )
