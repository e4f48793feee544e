"""Every voice there is: each module of ``voices`` that defines ``VOICE``."""

import difflib
import importlib
import pkgutil
from functools import cache

import baycue.cues.voices
from baycue.cues.voice import Voice
from baycue.errors import BaycueError


@cache
def voices() -> tuple[Voice, ...]:
    """All voices, in order of name."""
    modules = (
        importlib.import_module(f"baycue.cues.voices.{info.name}")
        for info in pkgutil.iter_modules(baycue.cues.voices.__path__)
    )
    found = [m.VOICE for m in modules if hasattr(m, "VOICE")]
    return tuple(sorted(found, key=lambda voice: voice.name))


def voice_named(name: str) -> Voice:
    """The voice of that name; BaycueError, with the nearest, if there is none."""
    found = next((voice for voice in voices() if voice.name == name), None)
    if found is None:
        names = [voice.name for voice in voices()]
        guess = difflib.get_close_matches(name, names, n=1)
        hint = f'; did you mean "{guess[0]}"?' if guess else ""
        raise BaycueError(f'no voice "{name}"; there are: {", ".join(names)}{hint}')
    return found
