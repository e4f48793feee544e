"""The campaign's watchdog: hangs in native code, strays, hunger and death are all told apart."""

from tests.fuzz.trial import HOWS
from tests.fuzz.watchdog import fed


def test_every_way_to_go_wrong_is_told_and_the_rest_goes_on() -> None:
    answers = list(fed("trial", 1, range(len(HOWS))))
    assert tuple(a.how for a in answers) == HOWS
    assert [a.number for a in answers] == list(range(len(HOWS)))
    told = [a.why.strip().splitlines()[-1] for a in answers if a.is_finding]
    assert told[0] == "ZeroDivisionError"
    assert told[1].startswith("over 2 s")
    assert told[2].startswith("wrote outside: ")
    assert told[3] == "MemoryError"
    assert told[4].startswith("exit code 9")
