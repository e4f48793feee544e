"""A speaker for those who want none."""

from baycue.cues.tones import Tone


class Silence:
    """Plays nothing."""

    is_alive = True
    """Nothing is lost that was wanted."""

    def play(self, tone: Tone) -> None:
        """Nothing sounds."""

    def close(self) -> None:
        """Nothing is open."""

    def describe(self) -> str:
        """That it is so on purpose."""
        return "switched off"
