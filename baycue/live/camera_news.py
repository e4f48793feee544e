"""Lines for a terminal on a camera lost and found again; nothing on a hiccup."""

from dataclasses import dataclass

_HICCUP_NS = 1_500_000_000


@dataclass(frozen=True, slots=True)
class CameraNews:
    """Since when the camera has been in trouble, and whether that has been told."""

    since_ns: int | None = None
    told: bool = False

    def after(self, trouble: str, now_ns: int) -> tuple["CameraNews", str | None]:
        """One look on, and the line to say now, if any; ``trouble``: "" for none."""
        if not trouble:
            return CameraNews(), "camera online again" if self.told else None
        since_ns = now_ns if self.since_ns is None else self.since_ns
        if self.told or now_ns - since_ns < _HICCUP_NS:
            return CameraNews(since_ns, self.told), None
        return CameraNews(since_ns, True), f"camera offline: {trouble}"
