"""What no package's metadata tells: our own files, and what lies inside the packages.

``by_hand.yaml`` says from where each is known.
"""

from dataclasses import dataclass, replace
from importlib import resources
from typing import Any

import yaml

from baycue.licences.component import Component


@dataclass(frozen=True, slots=True)
class ByHand:
    """``files``: in the package; ``beside``: what the wheel brings beside it."""

    files: tuple[Component, ...]
    beside: tuple[Component, ...]
    inside: dict[str, tuple[Component, ...]]
    remarks: dict[str, str]

    def complete(self, package: Component) -> Component:
        """With what is known of its inside."""
        inside = self.inside.get(package.name, ())
        return replace(package, inside=inside, remark=self.remarks.get(package.name, ""))


def by_hand() -> ByHand:
    """The list as it ships."""
    text = (resources.files("baycue.licences") / "by_hand.yaml").read_text(encoding="utf-8")
    keys = yaml.safe_load(text)
    inside = {package: _components(rows) for package, rows in keys["inside"].items()}
    files, beside = (_components(keys[part], "file") for part in ("files", "beside"))
    return ByHand(files, beside, inside, keys["remarks"])


def _components(rows: list[dict[str, Any]], kind: str = "library") -> tuple[Component, ...]:
    return tuple(Component(**{"kind": kind} | row) for row in rows)
