"""The session that a plan lays out, as the live loop walks it."""

import threading
import time
from collections.abc import Callable
from dataclasses import replace

from baycue.cues.speaker import Guide
from baycue.glimpse import Glimpse
from baycue.keep.record import DrillPlace, PracticeGo
from baycue.keep.standing import GoneGo
from baycue.live.live_hold import LiveHold
from baycue.plan.plan import Plan
from baycue.practice.drill import Ends
from baycue.practice.history import OneAfterAnother, PassHistory, RememberedPasses
from baycue.practice.practice import Practice, practice_of
from baycue.practice.progress import progress_of
from baycue.practice.schedule import TELL, Answer
from baycue.practice.view import PracticeView, practice_view
from baycue.practice.walk import Walk
from baycue.spine import ScoredSwing, UnscorableSwing

_ANSWER_SHOWN_NS = 6_000_000_000
"""So long an answer stays before what comes next is shown."""
_EXPLAINED_NS = 10_000_000_000
"""So long a hold is explained before its gauge is shown."""

OnHeld = Callable[[Answer | None], None]
"""Called when a hold counts, with what is to be summed up if the block is over."""


class LivePractice:
    """One plan's session.  ``judged``, ``counted`` and ``look`` are for the thread that watches,
    the rest for the main thread.

    ``guide``: what the guide tone sounds from.  ``earlier``: what was passed in earlier sessions.
    """

    def __init__(
        self,
        practice: Practice,
        guide: Guide,
        on_held: OnHeld,
        earlier: PassHistory | None = None,
    ) -> None:
        self._lock = threading.RLock()
        self._practice, self._on_held = practice, on_held
        self._hold = LiveHold(guide)
        self._plan = practice.judged_by
        self._earlier: PassHistory = earlier or RememberedPasses()
        self._moved_ns = 0
        self._begun = False
        self._announced: tuple[int, str] | None = None
        self._note: str | None = None
        self._counted: PracticeGo | None = None
        self._progress: tuple[str, ...] = ()

    @property
    def plan(self) -> Plan:
        """The plan with the targets of what is next; the same one until that changes."""
        return self._plan

    @property
    def walk(self) -> Walk:
        """How far the session is."""
        return self._practice.walk

    def go_on(
        self,
        goes: tuple[tuple[int, int], ...],
        number: int,
        done: tuple[int, ...],
        gone: tuple[GoneGo, ...],
    ) -> None:
        """Take up a session that was cut off, if the plan still lays out the same goes."""
        with self._lock:
            if goes_in(self._practice.walk) == goes:
                walk = replace(self._practice.walk, number=number, done=done)
                self._practice = self._practice.going_on(walk, gone)
                self._plan = self._practice.judged_by

    @property
    def wants_stops(self) -> bool:
        """Whether a club that stays at the ball is what is practised."""
        return self._practice.ends is Ends.GROUND

    @property
    def has_ball(self) -> bool:
        """Whether a strike is to be heard."""
        kind = self._practice.kind
        return kind is None or kind.has_ball

    @property
    def note(self) -> str | None:
        """Why the last swing did not count, if it did not."""
        return self._note

    @property
    def counted(self) -> PracticeGo | None:
        """Which go the swing that was judged last was; None if it was none."""
        return self._counted

    def judged(self, swing: ScoredSwing | UnscorableSwing, stopped: bool) -> Answer:
        """A swing has been scored, or cannot be and is to be done again."""
        self._counted = None
        if isinstance(swing, UnscorableSwing):
            return TELL
        with self._lock:
            before = self._practice
            self._counted = _go_of(before) if before.counts(stopped) else None
            self._note = _why_not_counted(before, stopped)
            now_ns = time.monotonic_ns()
            self._practice, answer = before.after_swing(swing.verdict, stopped, now_ns)
            self._begin(before)
            return answer

    def look(self, glimpse: Glimpse) -> None:
        """Guide a hold, if one is next."""
        with self._lock:
            practice, drill = self._practice, self._practice.drill
            if not self._begun:
                self._begun, self._moved_ns = True, time.monotonic_ns() - _ANSWER_SHOWN_NS
        if drill is None or practice.ends is not Ends.HOLD:
            return
        # Outside the lock, for it takes its time and the screen must not wait.
        watch, guidance = self._hold.watched(practice.plan, drill, glimpse)
        with self._lock:
            if self._practice.drill is not drill:
                return
            resting = self._practice.walk.rest_until_ns is not None
            counts = self._hold.take(watch, guidance, silent=resting)
            left = self._held() if counts else None
        if counts:
            self._on_held(left)

    def skip(self, block: bool) -> Answer | None:
        """Leave out a rest, a go, or the rest of a block."""
        with self._lock:
            before, now_ns, self._note = self._practice, time.monotonic_ns(), None
            self._practice, left = before.block_skipped() if block else before.skipped(now_ns)
            self._begin(before)
            self._moved_ns = now_ns - _ANSWER_SHOWN_NS
            return left

    def be_quiet(self) -> None:
        """No guide tone from now on, until a golfer is seen again."""
        with self._lock:
            self._hold.be_quiet()

    def take(self, plan: Plan) -> bool:
        """A plan that the coach has saved; whether its session begins anew.

        Other targets go on where the golfer is; another practice section begins at its start.
        """
        with self._lock:
            before = self._practice
            if plan is before.plan:
                return False
            if plan.practice == before.plan.practice:
                self._practice = replace(before, plan=plan)
                self._plan = self._practice.judged_by
                return False
            fresh = practice_of(plan)
            if fresh is not None:
                self._practice = replace(fresh, history=before.history, probed=before.probed)
                self._begin(before)
                self._plan = fresh.judged_by
            return True

    def progress(self) -> tuple[str, ...]:
        """How the targets with a rule stand, earlier sessions included."""
        with self._lock:
            history = OneAfterAnother(self._earlier, self._practice.history)
            return tuple(each.words for each in progress_of(self._practice.plan, history))

    def retention(self) -> tuple[str, ...]:
        """How silent blocks went, for the coach."""
        return self._practice.retention

    def view(self) -> PracticeView:
        """What to show now."""
        with self._lock:
            now_ns = time.monotonic_ns()
            self._practice = self._practice.at(now_ns)
            is_next = self._is_next(now_ns - self._moved_ns - _ANSWER_SHOWN_NS)
            return practice_view(
                self._practice, now_ns, self._hold.guidance(), is_next, self._progress
            )

    def news(self) -> str | None:
        """A line for a terminal on what is next, once for each drill."""
        walk, kind = self._practice.walk, self._practice.kind
        place = (walk.go.block, kind.name) if walk.go and kind else (-1, "")
        if place == self._announced:
            return None
        self._announced = place
        view = practice_view(self._practice, time.monotonic_ns())
        if view.is_over:
            return "practice: all done; full swings from now on"
        rest = "" if view.rest_s is None else f" Rest {view.rest_s} s first."
        cautions = " ".join(view.cautions)
        return f"practice: {view.place}.{rest} Next: {view.drill}. {view.told} {cautions}"

    def _is_next(self, waited_ns: int) -> bool:
        """Whether to show what is next, the last answer having stood for long enough."""
        walk = self._practice.walk
        if walk.rest_until_ns is not None:
            return waited_ns >= 0
        until_ns = _EXPLAINED_NS if self._practice.ends is Ends.HOLD else 1 << 62
        return walk.is_new_drill and 0 <= waited_ns < until_ns

    def _held(self) -> Answer | None:
        before, self._note = self._practice, None
        self._practice, left = before.after_go(time.monotonic_ns())
        self._begin(before)
        return left

    def _begin(self, before: Practice) -> None:
        """Another go: what was held before counts no more, unless it is of the same kind."""
        if self._practice.walk != before.walk:
            self._moved_ns = time.monotonic_ns()
        if self._practice.walk.go is None:
            self._progress = self.progress()
        if self._practice.drill is not before.drill:
            self._plan = self._practice.judged_by
            self._hold.end()


def goes_in(walk: Walk) -> tuple[tuple[int, int], ...]:
    """Block and drill of every go."""
    return tuple((go.block, go.drill) for go in walk.goes)


def live_practice(
    plan: Plan, guide: Guide, on_held: OnHeld, earlier: PassHistory | None = None
) -> LivePractice | None:
    """The session that a plan lays out; None for full swings for ever."""
    practice = practice_of(plan)
    return LivePractice(practice, guide, on_held, earlier) if practice else None


def _why_not_counted(practice: Practice, stopped: bool) -> str | None:
    if practice.drill is None or practice.counts(stopped):
        return None
    if practice.ends is Ends.GROUND:
        return "That one went through: not counted. Stop at the ground."
    return "A swing: not counted. Go slowly and hold."


def _go_of(practice: Practice) -> PracticeGo | None:
    """What is kept of the go that is next; None when all is done."""
    go, block, drill = practice.walk.go, practice.walk.block, practice.drill
    if go is None or block is None or drill is None:
        return None
    place = DrillPlace(go.block, go.drill)
    return PracticeGo(place, block.title, drill.drill, practice.is_silent)
