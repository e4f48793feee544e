"""What is kept and written beside the session: when it may go on, and what is told of it."""

import time

from baycue.live.parts import Parts
from baycue.live.stage import is_judged
from baycue.live.standing import standing_of


def tell_of_keeping(parts: Parts) -> None:
    """What was kept, and what could not be."""
    for line in parts.keeper.news():
        parts.means.say(line)


def tell_of_writing(parts: Parts) -> None:
    """Views that were written; nothing is written or packed while a swing is judged."""
    free = not is_judged(parts.analysis.stage, parts.analysis.scoring)
    parts.writer.let(free)
    parts.keeper.let(free)
    for line in parts.writer.news(time.monotonic_ns()):
        parts.means.say(line)


def keep_standing(parts: Parts) -> None:
    """Have it kept, should this process be killed."""
    tally = parts.answers.standing(at_address=False).tally
    stands = standing_of(parts.analysis.swings, tally, parts.practices.places())
    parts.standing.look(parts.plans.plan.student, stands)
