"""Every voice there is: each module of ``voices`` that defines ``VOICE``."""

import difflib
from functools import cache

import baycue.cues.voices
from baycue.cues.voice import Voice
from baycue.discovered import discovered
from baycue.errors import BaycueError


@cache
def voices() -> tuple[Voice, ...]:
    """All voices, in order of name."""
    return tuple(sorted(discovered(baycue.cues.voices, "VOICE"), key=lambda voice: voice.name))


def voice_named(name: str) -> Voice:
    """The voice of that name; BaycueError, with the nearest, if there is none."""
    found = next((voice for voice in voices() if voice.name == name), None)
    if found is None:
        names = [voice.name for voice in voices()]
        guess = difflib.get_close_matches(name, names, n=1)
        hint = f'; did you mean "{guess[0]}"?' if guess else ""
        raise BaycueError(f'no voice "{name}"; there are: {", ".join(names)}{hint}')
    return found
