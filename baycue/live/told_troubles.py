"""What goes wrong in the bay, told in the terminal once and once more when it is over."""

from collections.abc import Callable

from baycue.capture.camera import CameraStatus, LiveCamera
from baycue.live.darkroom import Darkroom
from baycue.live.picture_trouble import LOOKED_AT_NS, PictureTrouble, picture_trouble
from baycue.live.trouble_news import TroubleNews

_LOOK_EVERY_NS = 500_000_000


class ToldTroubles:
    """Camera, pictures and sound; ``pictures``: what is wrong with those that come.

    ``no_sound_told``: that there is none has been said before the session began; it may be back by
    now.  Used by the session's main thread alone.
    """

    def __init__(
        self,
        camera: LiveCamera,
        darkroom: Darkroom,
        say: Callable[[str], None],
        no_sound_told: bool,
    ) -> None:
        self.pictures = PictureTrouble()
        self._camera, self._darkroom, self._say = camera, darkroom, say
        self._looked_ns = 0
        self._offline = TroubleNews("camera offline", "camera online again")
        self._slow = TroubleNews("camera too slow", "camera fast enough again")
        self._silent = TroubleNews("no sound", "sound again", told=no_sound_told)

    def look(self, status: CameraStatus, sound: str, now_ns: int) -> None:
        """One look on; ``sound``: why there is none, or ""."""
        self._look_at_pictures(status, now_ns)
        pictures = self.pictures
        blind = pictures.words if pictures.blind else ""
        trouble = "" if status.ended else status.trouble or blind
        slow = "" if pictures.blind else pictures.words
        self._offline, *lines = self._offline.after(trouble, now_ns)
        self._slow, line = self._slow.after(slow, now_ns)
        self._silent, last = self._silent.after(sound, now_ns)
        for each in (*lines, line, last):
            if each is not None:
                self._say(each)

    def _look_at_pictures(self, status: CameraStatus, now_ns: int) -> None:
        if status.online and now_ns - self._looked_ns > _LOOK_EVERY_NS:
            self._looked_ns = now_ns
            newest = self._camera.ring.wait_beyond(-1, 0.0)[-1:]
            until_ns = newest[0].stamp_ns if newest else 0
            since_ns = until_ns - LOOKED_AT_NS
            stills = self._darkroom.stills.between(since_ns, until_ns)
            self.pictures = picture_trouble(self._camera.ring.between(since_ns, until_ns), stills)
