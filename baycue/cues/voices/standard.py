"""The voice that is used if no other is asked for."""

from baycue.cues.tones import SCORES
from baycue.cues.voice import Voice

VOICE = Voice(
    name="standard",
    told="Pass rises, fail falls and is long, too close to call beats on one note; 660 to 1050 Hz.",
    scores=SCORES,
)
