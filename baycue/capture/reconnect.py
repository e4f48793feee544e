"""When to try a lost camera again: soon at first, then at a pace that hurts nobody."""

_FIRST_NS = 500_000_000
_LONGEST_NS = 5_000_000_000


def wait_before_try_ns(failures: int) -> int:
    """How long to wait after this many tries failed in a row; none before the first."""
    if failures <= 0:
        return 0
    return int(min(_FIRST_NS * 2 ** min(failures - 1, 10), _LONGEST_NS))
