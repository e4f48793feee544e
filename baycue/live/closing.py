"""The end of a session: every part closed, and what it still has to tell told."""

from baycue.errors import BaycueError
from baycue.live.after_swing import heed_scorer
from baycue.live.kept_news import tell_of_keeping, tell_of_writing
from baycue.live.parts import Parts


def close(parts: Parts) -> None:
    """Waits for every thread and process; a view still being written is finished first."""
    parts.camera.close()
    parts.darkroom.close()
    parts.analysis.close()
    heed_scorer(parts)
    parts.scorer.close()
    parts.keeper.close()
    tell_of_keeping(parts)
    if parts.set_up is not None:
        parts.set_up.close()
    parts.listening.close()
    parts.again.close()
    if parts.practice is not None:
        parts.practice.be_quiet()
    try:
        parts.means.speaker.close()
    except BaycueError as error:
        parts.means.say(str(error))
    parts.means.screen.close()
    tell_of_writing(parts)
    if parts.writer.still:
        parts.means.say(f"{parts.writer.still} still being written; wait for it")
    parts.writer.close()
    tell_of_writing(parts)
