"""Damaged and hostile input, by the thousand; ``python -m tests.fuzz.campaign --help``."""
