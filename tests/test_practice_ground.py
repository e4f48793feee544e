"""A club driven into the ground, rendered with its blur and looked at by the real pose model."""

from dataclasses import dataclass, replace
from functools import cache

import pytest

from baycue.glimpse import glimpses
from baycue.live.feedback import FeedbackMode
from baycue.plan.plan import Plan
from baycue.pose.landmarker import MediaPipePose
from baycue.spine import ScoredSwing, score_swing, swing_news
from baycue.swing.events import StopSeen
from baycue.swing.swing import CheckpointName
from baycue.synthetic.clip import render_frames
from baycue.synthetic.drills import into_the_ground
from baycue.synthetic.recipes import FACE_ON, FIRST, Recipe
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.swing_style import SwingStyle
from baycue.watch import Watch
from tests.played_session import KnownFrames, Played, play
from tests.practice_plans import practice_plan

KNEE_M = -0.02
"""The knee never gets over the ankle: 7 cm short of the plan's 5 cm."""
GROUND = "  blocks: [{drills: [{drill: into the ground, count: 2}]}]\n"
FULL = "  blocks: [{drills: [{drill: full swing, count: 2}]}]\n"


@dataclass(frozen=True, slots=True)
class Filmed:
    """The clip as the pose model sees it, and when P6 and the end really are, s."""

    frames: KnownFrames
    p6_s: float
    stops_s: float


@cache
def filmed() -> Filmed:
    camera = replace(FACE_ON, width_px=960, height_px=540)
    shot = Recipe("ground", "into the ground", golfer=FIRST, camera=camera, fps=30.0).shot()
    swing = SwingMotion(shot.body, SwingStyle(knee_past_ankle_at_p6_m=KNEE_M))
    motion = into_the_ground(swing)
    frames = list(render_frames(shot, motion.moment_at, motion.duration_s, workers=1))
    with MediaPipePose() as estimator:
        known = KnownFrames(frames, [estimator.estimate(frame) for frame in frames])
    return Filmed(known, swing.phases.p6_s, swing.phases.impact_s)


@pytest.fixture(scope="module")
def into_ground() -> Played:
    return play(FeedbackMode(), plans=(practice_plan(GROUND),), golfer=filmed().frames)


def stops(plan: Plan) -> list[tuple[StopSeen, ScoredSwing]]:
    watch, found = Watch(), []
    for glimpse in glimpses(filmed().frames.frames, filmed().frames):
        watch, event = watch.after(glimpse)
        if event is not None:
            assert isinstance(event, StopSeen)
            scored = score_swing(1, event.strike, watch.memory, plan)
            assert isinstance(scored, ScoredSwing)
            found.append((event, scored))
    return found


def test_it_is_seen_once_where_it_stops_and_judged_to_p6() -> None:
    ((event, scored),) = stops(practice_plan(GROUND))
    assert event.strike.return_ns * 1e-9 == pytest.approx(filmed().stops_s, abs=0.05)
    p6 = scored.evidence.swing.at(CheckpointName.P6)
    assert p6 is not None
    # The README asks 8 ms of P6 at 30 frames a second.
    assert p6.time_ns * 1e-9 == pytest.approx(filmed().p6_s, abs=0.008)
    (knee,) = scored.verdict.targets
    assert knee.measurement is not None
    assert knee.measurement.value == pytest.approx(KNEE_M, abs=0.015)


def test_nothing_after_it_is_looked_at() -> None:
    ((event, scored),) = stops(practice_plan(GROUND))
    assert event.strike.until_ns is not None
    assert scored.decided_ns <= event.strike.until_ns


def test_it_is_no_full_swing_for_a_recording() -> None:
    seen = glimpses(filmed().frames.frames, filmed().frames)
    assert list(swing_news(seen, practice_plan(FULL))) == []


def test_live_it_counts_where_it_is_practised(into_ground: Played) -> None:
    (told,) = into_ground.told
    assert told.verdict is not None
    assert into_ground.speaker.played == [told.verdict.outcome]
    last = into_ground.screen.views[-1].practice
    assert last is not None
    assert (last.drill, last.done, last.goes) == ("into the ground", 1, 2)


def test_live_it_is_nothing_where_full_swings_are_practised() -> None:
    played = play(FeedbackMode(), plans=(practice_plan(FULL),), golfer=filmed().frames)
    assert played.told == ()
    assert played.speaker.played == []
