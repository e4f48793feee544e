"""Verdicts on their way to the golfer: known, waiting, told, counted."""

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from baycue.cues.speaker import Guide, NoGuide, Speaker
from baycue.cues.voice import Voice
from baycue.cues.voices.standard import VOICE
from baycue.errors import OutputError
from baycue.live.feedback import FeedbackMode, Pending
from baycue.live.screen import BigScreen
from baycue.live.tally import Tally
from baycue.live.timing import SwingTiming
from baycue.practice.schedule import TELL, Answer, Telling
from baycue.practice.summary import Summary, summary_of
from baycue.spine import ScoredSwing, UnscorableSwing
from baycue.verdict.verdict import Outcome, SwingVerdict


@dataclass(frozen=True, slots=True)
class ToldSwing:
    """A swing's answer, when its parts were ready, and when its cue was submitted, ns.

    ``verdict``: None for a swing that could not be judged.  The poses and readings behind it are
    a fifth of a megabyte, so only the newest swing's are kept, in ``Answers.newest``.
    """

    verdict: SwingVerdict | None
    timing: SwingTiming
    cue_ns: int | None = None

    @property
    def software_ms(self) -> float | None:
        """From the stamp of the impact frame to the cue submitted."""
        return None if self.cue_ns is None else (self.cue_ns - self.timing.impact_ns) / 1e6


@dataclass(slots=True)
class Means:
    """How the golfer is told: speaker and voice, screen, lines for a terminal, a tone to go by.

    ``no_sound_told``: it has been said already that the speaker is silent.
    """

    speaker: Speaker
    screen: BigScreen
    say: Callable[[str], None]
    guide: Guide = field(default_factory=NoGuide)
    voice: Voice = VOICE
    no_sound_told: bool = False


@dataclass(frozen=True, slots=True)
class Standing:
    """What the screen needs to know of the answers.

    ``answered``: the last swing has been answered and no address has been seen since.
    ``waits``: an answer is ready for the golfer to ask for.  ``sound_lost``: why the last tone
    did not sound, if the speaker does not tell of itself.  ``summary``: told after the verdict.
    ``withheld``: the last swing has been judged and is not to be told.
    """

    verdict: SwingVerdict | None = None
    summary: Summary | None = None
    withheld: bool = False
    unscorable: str | None = None
    tally: Tally = field(default_factory=Tally)
    answered: bool = False
    waits: bool = False
    sound_lost: str | None = None


@dataclass(frozen=True, slots=True)
class Counted:
    """The newest swing counted, and the counts before it."""

    number: int = 0
    before: Tally = field(default_factory=Tally)


class Answers:
    """Shared by the analysis thread, which brings verdicts, and the main thread.

    A verdict due at once is sounded by whoever brings it, so that drawing cannot delay it.
    ``tally``: of a session that goes on.
    """

    def __init__(self, mode: FeedbackMode, means: Means, tally: Tally | None = None) -> None:
        self._means = means
        self._tones = {outcome: means.voice.tone(outcome) for outcome in Outcome}
        self._lock = threading.RLock()
        self._pending, self._standing = Pending(mode), Standing(tally=tally or Tally())
        self._told: list[ToldSwing] = []
        self._newest: ScoredSwing | UnscorableSwing | None = None
        self._counted, self._without_ball = Counted(), 0

    @property
    def told(self) -> tuple[ToldSwing, ...]:
        """All swings so far, told or not."""
        with self._lock:
            return tuple(self._told)

    @property
    def newest(self) -> ScoredSwing | UnscorableSwing | None:
        """The last swing with all that is known of it."""
        return self._newest

    def standing(self, at_address: bool) -> Standing:
        """How things stand; a golfer at address awaits the next answer."""
        with self._lock:
            if at_address:
                self._standing = replace(self._standing, answered=False)
            return replace(self._standing, waits=self._pending.waits)

    def known(
        self, swing: ScoredSwing | UnscorableSwing, timing: SwingTiming, answer: Answer = TELL
    ) -> None:
        """A swing has been scored, or cannot be; ``answer``: what its schedule makes of it."""
        with self._lock:
            self._newest = swing
            if isinstance(swing, ScoredSwing):
                self._told.append(ToldSwing(swing.verdict, timing))
                self._standing = replace(self._standing, answered=False)
                self._schedule(swing.verdict, answer)
            else:
                self._told.append(ToldSwing(None, timing))
                self._refuse(swing)
        self.tell_what_is_due()

    def sum_up(self, verdicts: tuple[SwingVerdict, ...]) -> None:
        """Tell some swings together, when the mode says."""
        with self._lock:
            summary = summary_of(verdicts)
            self._pending = self._pending.with_answer(summary, time.monotonic_ns())
        self.tell_what_is_due()

    def finished(self, swing: ScoredSwing) -> None:
        """The newest swing is known with its P8 or finish; its verdict stands."""
        with self._lock:
            newest = self._newest
            if isinstance(newest, ScoredSwing) and _same(newest, swing):
                self._newest = swing

    def no_ball(self, number: int) -> None:
        """No ball was heard in this swing: whatever its verdict, it does not count."""
        with self._lock:
            self._without_ball = number
            if self._counted.number == number:
                tally = self._counted.before.after_practice()
                self._standing = replace(self._standing, tally=tally)

    def tell_what_is_due(self, requested: bool = False) -> None:
        """Sound and count the answer that waits, if its time has come."""
        with self._lock:
            self._pending, answer = self._pending.told(time.monotonic_ns(), requested)
            if answer is None:
                return
            line = self._show(answer) if isinstance(answer, Summary) else self._tell(answer)
        self._means.say(line)

    def _tell(self, verdict: SwingVerdict) -> str:
        """Sound, show and count a verdict; the line to say."""
        self.sound(verdict.outcome)
        self._told[-1] = replace(self._told[-1], cue_ns=time.monotonic_ns())
        self._standing = replace(
            self._standing,
            verdict=verdict,
            summary=None,
            withheld=False,
            unscorable=None,
            answered=True,
        )
        self._count(verdict.swing_number, verdict.outcome)
        return _line(verdict, self._told[-1])

    def _show(self, summary: Summary) -> str:
        """Show and count a summary, which has no tone; the line to say."""
        tally = self._standing.tally
        for outcome in summary.outcomes:
            tally = tally.after(outcome)
        self._standing = replace(
            self._standing,
            summary=summary,
            withheld=False,
            unscorable=None,
            tally=tally,
            answered=True,
        )
        return summary.words

    def _schedule(self, verdict: SwingVerdict, answer: Answer) -> None:
        """Have a verdict told, asked for, summed up or kept back."""
        now_ns, if_asked = time.monotonic_ns(), answer.telling is Telling.ASK
        if answer.telling is Telling.SUM_UP:
            self._pending = self._pending.with_answer(summary_of(answer.summed), now_ns)
        elif answer.telling is Telling.WITHHOLD:
            self._pending = replace(self._pending, answer=None)
            self._standing = replace(
                self._standing, withheld=True, summary=None, unscorable=None, answered=True
            )
            self._means.say(f"swing {verdict.swing_number}: judged and kept, not told")
        else:
            self._pending = self._pending.with_answer(verdict, now_ns, if_asked)

    def again(self) -> None:
        """Show and sound the last verdict once more; it counts only once."""
        with self._lock:
            verdict = self._standing.verdict
            if verdict is not None and not self._standing.withheld:
                self.sound(verdict.outcome)
                self._standing = replace(
                    self._standing, summary=None, unscorable=None, answered=True
                )

    def sound(self, outcome: Outcome) -> None:
        """Sound a tone; a lost speaker is noted and ends nothing."""
        lost = None
        try:
            self._means.speaker.play(self._tones[outcome])
        except OutputError as error:
            # A device that is gone tells so itself, until it is back.
            lost = str(error) if self._means.speaker.is_alive else None
        self._standing = replace(self._standing, sound_lost=lost)

    def _count(self, number: int, outcome: Outcome | None) -> None:
        before = self._standing.tally
        self._counted = Counted(number, before)
        practice = number == self._without_ball
        tally = before.after_practice() if practice else before.after(outcome)
        self._standing = replace(self._standing, tally=tally)

    def _refuse(self, swing: UnscorableSwing) -> None:
        self._pending = replace(self._pending, answer=None)
        self._standing = replace(
            self._standing, unscorable=swing.reason, summary=None, withheld=False
        )
        self._count(swing.number, None)
        self._means.say(f"swing {swing.number} cannot be judged: {swing.reason}")


def _same(one: ScoredSwing, other: ScoredSwing) -> bool:
    return one.verdict.swing_number == other.verdict.swing_number


def _line(verdict: SwingVerdict, told: ToldSwing) -> str:
    """One line for a terminal."""
    late = "" if told.software_ms is None else f" ({told.software_ms:.0f} ms after impact)"
    return f"swing {verdict.swing_number}: {verdict.outcome.value.upper()}{late}. {verdict.reason}"
