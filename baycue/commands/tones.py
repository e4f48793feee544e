"""Let a voice's three tones be heard."""

from pathlib import Path

from rich.console import Console

from baycue.commands.folders import drop_if_empty, new_folder, refuse_unusable
from baycue.cues.speaker import open_speaker
from baycue.cues.tones import Tone
from baycue.cues.voice import Voice
from baycue.cues.voice_catalogue import voice_named, voices
from baycue.verdict.verdict import Outcome


def run_tones(name: str | None, out: Path, console: Console) -> None:
    """List all voices for no name, else play the one: pass, fail, too close to call."""
    if name is None:
        for voice in voices():
            _say(console, f"{voice.name}: {voice.told}")
        return
    _play(voice_named(name), out, console)


def _play(voice: Voice, out: Path, console: Console) -> None:
    refuse_unusable(out)
    folder = new_folder(out, f"tones-{voice.name.replace(' ', '-')}")
    try:
        for outcome in Outcome:
            _sound(voice.tone(outcome), folder, console)
    finally:
        drop_if_empty(folder)


def _sound(tone: Tone, folder: Path, console: Console) -> None:
    """To its end; into a file where there is no sound card."""
    speaker, no_sound = open_speaker(folder / f"{tone.outcome.value.replace(' ', '_')}.wav")
    _say(
        console, f"{tone.outcome.value}: {tone.length_s:.2f} s{f'; {no_sound}' if no_sound else ''}"
    )
    try:
        speaker.play(tone)
    finally:
        speaker.close()


def _say(console: Console, line: str) -> None:
    console.print(line, soft_wrap=True, highlight=False, markup=False)
