"""The list as it ships with the package, read."""

import json
from importlib import resources
from typing import Any

from baycue.licences.component import Component

BILL = "licences.cdx.json"


def shipped_bill() -> str:
    """The document's text; ``bill`` says of which kind."""
    return (resources.files("baycue.licences") / BILL).read_text(encoding="utf-8")


def shipped_components() -> tuple[Component, ...]:
    """What it lists."""
    return components_of(json.loads(shipped_bill()))


def components_of(bill: dict[str, Any]) -> tuple[Component, ...]:
    """What such a document lists: our own files first, then the packages."""
    return tuple(_component(entry) for entry in bill["components"])


def _component(entry: dict[str, Any]) -> Component:
    notes = {note["name"]: note["value"] for note in entry["properties"]}
    (said,) = entry["licenses"]
    return Component(
        entry["name"],
        said["expression"] if "expression" in said else said["license"]["name"],
        notes["baycue:origin"],
        notes.get("baycue:remark", ""),
        kind=entry["type"],
        inside=tuple(_component(part) for part in entry.get("components", ())),
    )
