"""What has been worked out is not worked out again, and work can be broken off between pieces."""

import pytest

from baycue.club.memo import Memo, shaft_memo


class OvertakenError(Exception):
    """Something came."""


def test_a_value_is_worked_out_once() -> None:
    memo, worked = Memo[int](), list[int]()

    def work_out() -> int:
        worked.append(1)
        return 7

    assert [memo.recall("key", work_out) for _ in range(3)] == [7, 7, 7]
    assert worked == [1]


def test_broken_off_it_keeps_what_there_is() -> None:
    overtaken = False

    def before_work() -> None:
        if overtaken:
            raise OvertakenError

    memo = Memo[int](before_work)
    assert memo.recall("one", lambda: 1) == 1
    overtaken = True
    assert memo.recall("one", lambda: 2) == 1, "what is known needs no work"
    with pytest.raises(OvertakenError):
        memo.recall("two", lambda: 2)
    overtaken = False
    assert memo.recall("two", lambda: 3) == 3


def test_all_parts_of_a_shaft_memo_are_asked() -> None:
    asked: list[int] = []
    memo = shaft_memo(lambda: asked.append(1))
    parts = [memo.surroundings, memo.looks, memo.paths, memo.gains, memo.fits]
    for part in parts:
        part.recall("key", lambda: 0)  # type: ignore[attr-defined]
    assert len(asked) == len(parts)
