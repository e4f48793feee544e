"""Lines for a terminal on something lost and found again; nothing on a hiccup."""

from dataclasses import dataclass, replace

_HICCUP_NS = 1_500_000_000


@dataclass(frozen=True, slots=True)
class TroubleNews:
    """``lost`` begins the line that tells a trouble, ``found`` is the line when it is over.

    ``since_ns``: since when there is trouble; ``told``: whether that has been said.
    """

    lost: str
    found: str
    since_ns: int | None = None
    told: bool = False

    def after(self, trouble: str, now_ns: int) -> tuple["TroubleNews", str | None]:
        """One look on, and the line to say now, if any; ``trouble``: "" for none."""
        if not trouble:
            calm = replace(self, since_ns=None, told=False)
            return calm, self.found if self.told else None
        since_ns = now_ns if self.since_ns is None else self.since_ns
        if self.told or now_ns - since_ns < _HICCUP_NS:
            return replace(self, since_ns=since_ns), None
        told = replace(self, since_ns=since_ns, told=True)
        return told, f"{self.lost}: {trouble.removeprefix(f'{self.lost}: ')}"
