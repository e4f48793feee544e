"""Plans edited while a session runs: taken between swings, never in the middle of one."""

from dataclasses import dataclass, field

from baycue.live.plans import Plans, TargetSet
from baycue.plan.load import parse_plan
from baycue.plan.watch import PlanWatch
from tests.held_plan import BROKEN, FIVE, PATH, SIX, HeldFile

LOOK_NS = 500_000_000
BOARD = FIVE.replace("view: face-on", "view: face-on\nscale: {by: board}")


@dataclass
class Bench:
    """Two plans, the first in a file, and a clock that goes on by one look at a time."""

    file: HeldFile = field(default_factory=HeldFile)
    said: list[str] = field(default_factory=list)
    now_ns: int = 0

    def __post_init__(self) -> None:
        watch = PlanWatch(PATH, self.file)
        sets = [TargetSet("heron", watch.plan, watch), TargetSet("other", parse_plan(SIX, "p"))]
        self.plans = Plans(sets, self.said.append)

    def look(self, between_swings: bool = True) -> bool:
        """Whether the plan that is on has changed."""
        self.now_ns += LOOK_NS
        return self.plans.look(self.now_ns, between_swings) is not None

    @property
    def notice(self) -> str | None:
        return self.plans.notice(self.now_ns)

    def least_cm(self) -> float:
        low = self.plans.plan.targets[0].bound.low
        assert low is not None
        return round(100 * low.value)


def test_a_save_is_taken_and_told() -> None:
    bench = Bench()
    bench.file.save(SIX)
    assert [bench.look(), bench.look(), bench.look()] == [False, True, False]
    assert bench.least_cm() == 6
    assert bench.said == ["plan heron: saved and taken; 1 target from the next swing on"]
    assert bench.notice == "The new plan counts from now on."
    for _ in range(10):
        bench.look()
    assert bench.notice is None


def test_in_the_middle_of_a_swing_nothing_is_read() -> None:
    bench = Bench()
    bench.file.save(SIX)
    bench.look()
    assert [bench.look(between_swings=False) for _ in range(6)] == [False] * 6
    assert (bench.least_cm(), bench.file.reads) == (5, 1)
    assert bench.look()
    assert bench.least_cm() == 6


def test_looks_are_half_a_second_apart() -> None:
    bench = Bench()
    bench.file.save(SIX)
    bench.look()
    assert bench.plans.look(bench.now_ns + LOOK_NS - 1, True) is None
    assert bench.plans.look(bench.now_ns + LOOK_NS, True) is not None


def test_a_broken_edit_is_told_on_screen_and_terminal_until_mended() -> None:
    bench = Bench()
    bench.file.save(BROKEN)
    assert [bench.look() for _ in range(20)] == [False] * 20
    assert bench.least_cm() == 5
    assert bench.notice == (
        'Old plan kept: line 6, at_least: "5" has no unit for "knee past ankle"'
    )
    assert bench.said[0].startswith(f"{PATH}:6: targets[1].at_least: ")
    assert bench.said[1] == "plan heron: not taken; the one before goes on"
    assert len(bench.said) == 2
    bench.file.save(SIX)
    bench.look()
    assert bench.look()
    assert bench.notice == "The new plan counts from now on."


def test_a_plan_that_is_not_on_is_taken_quietly() -> None:
    bench = Bench()
    bench.plans.turn_over()
    assert bench.plans.name == "other"
    bench.file.save(SIX)
    assert [bench.look(), bench.look()] == [False, False]
    assert bench.notice is None
    assert bench.plans.turn_over().targets[0].bound.low is not None
    assert (bench.plans.name, bench.least_cm()) == ("heron", 6)


def test_a_board_asked_for_later_is_said_to_wait() -> None:
    bench = Bench()
    bench.file.save(BOARD)
    bench.look()
    bench.look()
    assert bench.said[-1] == "plan heron: the board is looked for only after the next start"
