"""The last swing played again by itself, from a while after its verdict until the next address."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from baycue.capture.ring import Ring
from baycue.capture.shot import Shot
from baycue.cues.keys import ReplayKey, ReplayPointed
from baycue.keep.record import Later
from baycue.keep.told_record import later_than
from baycue.live.beside import Beside, Offer, nothing_offered
from baycue.live.worker import Worker
from baycue.pose.pose import Pose
from baycue.replay.controls import LIVE_HELP, WALK, pointed, pressed
from baycue.replay.film import SwingFilm, film_of_shots, span_of
from baycue.replay.page import ReplayPage, replay_page
from baycue.replay.programme import PICTURES_A_SECOND, shown_after
from baycue.replay.showing import Showing
from baycue.spine import ScoredSwing
from baycue.verdict.verdict import SwingVerdict

READ_FIRST_NS = 3_000_000_000
"""So long the verdict has the screen to itself."""


_NOTHING_LATER = Later()


@dataclass(frozen=True, slots=True)
class _Wanted:
    scored: ScoredSwing
    ready_ns: int
    offer: Offer
    later: Later = _NOTHING_LATER


@dataclass(frozen=True, slots=True)
class _ByHand:
    """What was shown after the last key, or what the mouse did."""

    showing: Showing
    since_ns: int


class SwingAgain:
    """Gathers a swing's pictures in a thread of its own and says what to show when.

    ``shots``: the camera's last seconds.  Times are of the clock that stamps shots.
    """

    def __init__(self, shots: Ring[Shot]) -> None:
        self._shots = shots
        self._wanted: _Wanted | None = None
        self._film: SwingFilm | None = None
        self._asked_for: _Wanted | None = None
        self._since_ns: int | None = None
        self._by_hand: _ByHand | None = None
        self._beside = Beside()
        self._worker: Worker[_Wanted] = Worker(self._gather, "replay")

    def known(self, scored: ScoredSwing | None, offer: Offer = nothing_offered) -> None:
        """A swing has been scored (None: it could not be); from any thread.

        ``offer``: the swings that it may be compared with.
        """
        self._film, self._since_ns, self._by_hand = None, None, None
        self._wanted = _Wanted(scored, span_of(scored)[1], offer) if scored else None

    def finished(self, latest: ScoredSwing, poses: Sequence[Pose]) -> None:
        """The swing is known with its P8 or finish; ``poses``: the golfer's since the verdict.

        What is being shown goes on, with what was seen later once that is gathered.
        """
        wanted = self._wanted
        if wanted is None or latest.verdict != wanted.scored.verdict:
            return
        later = later_than(wanted.scored, latest, poses)
        ready_ns = span_of(wanted.scored, later)[1]
        self._wanted = _Wanted(wanted.scored, ready_ns, wanted.offer, later)

    def shown(
        self, now_ns: int, told: SwingVerdict | None, answered: bool, tally: str = ""
    ) -> ReplayPage | None:
        """What to show now; None while there is nothing to show or the verdict is being read.

        ``told``: the verdict on the screen.  ``answered``: it is the last swing's, and nobody
        stands to the next ball.
        """
        wanted = self._wanted
        if wanted is None or not answered or told != wanted.scored.verdict:
            self.anew()
            return None
        # By what was asked for, since another thread may bring the next swing meanwhile.
        if self._asked_for is not wanted and now_ns >= wanted.ready_ns:
            self._asked_for = wanted
            self._worker.ask(wanted)
        if self._since_ns is None:
            self._beside.forget()
            self._since_ns = now_ns + READ_FIRST_NS
        showing = self.view(now_ns)
        return replay_page(showing, tally, LIVE_HELP) if showing else None

    def view(self, now_ns: int) -> Showing | None:
        """What is seen of the swing at a moment; None if it does not play.

        This and what follows is called by the thread that calls ``shown``.
        """
        film, since_ns, wanted = self._film, self._since_ns, self._wanted
        if film is None or since_ns is None or now_ns < since_ns:
            return None
        if wanted is None or film.scored is not wanted.scored:
            return None
        return self._beside.beside(self._showing(film, now_ns, since_ns))

    def heed(self, asked: ReplayKey | ReplayPointed, now_ns: int) -> None:
        """A key of the replay or the mouse on it; nothing, if none plays."""
        if isinstance(asked, ReplayPointed):
            self._take_in_hand(lambda s: pointed(s, asked.how, asked.time_ns), now_ns)
        elif asked.code in WALK:
            self._walk(WALK[asked.code], now_ns)
        else:
            self.pressed(asked.code, now_ns)

    def pressed(self, code: int, now_ns: int) -> None:
        """A key, by pygame's code: from now on the replay goes by hand; none, if none plays."""
        self._take_in_hand(lambda s: pressed(s, code), now_ns)

    def _take_in_hand(self, change: Callable[[Showing], Showing], now_ns: int) -> None:
        showing = self.view(now_ns)
        if showing is not None:
            self._by_hand = _ByHand(change(showing), now_ns)

    def _walk(self, by: int, now_ns: int) -> None:
        """Have another earlier swing beside it."""
        showing, wanted = self.view(now_ns), self._wanted
        if showing is not None and wanted is not None:
            self._by_hand = _ByHand(showing, now_ns)
            self._beside.walk(showing, wanted.offer, by)

    def _showing(self, film: SwingFilm, now_ns: int, since_ns: int) -> Showing:
        hand = self._by_hand
        if hand is None:
            return shown_after(film, now_ns - since_ns)
        # No more pictures a second than what plays by itself.
        elapsed_ns = (now_ns - hand.since_ns) * PICTURES_A_SECOND // 10**9 * 10**9
        player = hand.showing.player.after(elapsed_ns / PICTURES_A_SECOND)
        return replace(hand.showing, film=film, player=player)

    def anew(self) -> None:
        """The verdict first, then from the beginning, by itself."""
        self._since_ns, self._by_hand = None, None
        self._beside.forget()

    def close(self) -> None:
        """End the threads."""
        self._beside.close()
        self._worker.close()

    def _gather(self, wanted: _Wanted) -> None:
        since_ns, until_ns = span_of(wanted.scored, wanted.later)
        shots = self._shots.between(since_ns, until_ns)
        self._film = film_of_shots(shots, wanted.scored, wanted.later)
