"""Counts in words, with the right grammar for one and for many."""


def counted(number: int, one: str, many: str | None = None) -> str:
    """``1 swing``, ``12 swings``; ``many``: where more than an s tells it from ``one``."""
    return f"{number} {one if number == 1 else many or f'{one}s'}"
