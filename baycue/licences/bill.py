"""The list made as a bill of materials: CycloneDX 1.6, an open standard (ECMA-424), as JSON.

It has names and licences and no versions, which pip chooses anew at every installation.
"""

from typing import Any

from packaging.licenses import InvalidLicenseExpression, canonicalize_license_expression

from baycue.licences.by_hand import by_hand
from baycue.licences.component import Component
from baycue.licences.installed import drawn_in

Json = dict[str, Any]

_LICENCE = "Apache-2.0"


def bill_here() -> Json:
    """Of our own files and the packages installed here, what is inside them included."""
    known = by_hand()
    packages = tuple(known.complete(package) for package in drawn_in("baycue"))
    return bill_of((*known.files, *known.beside, *packages))


def bill_of(components: tuple[Component, ...]) -> Json:
    """The document."""
    ours = {"type": "application", "name": "baycue"} | _licence(_LICENCE)
    return {
        "bomFormat": "CycloneDX",
        "specVersion": "1.6",
        "version": 1,
        "metadata": {"component": ours},
        "components": [_outer(component) for component in components],
    }


def _outer(component: Component) -> Json:
    if component.kind == "file":
        return _entry(component)
    return _entry(component) | {"purl": f"pkg:pypi/{component.name}"}


def _entry(component: Component) -> Json:
    notes = {"baycue:origin": component.origin, "baycue:remark": component.remark}
    told = [{"name": name, "value": value} for name, value in notes.items() if value]
    entry = {"type": component.kind, "name": component.name} | _licence(component.licence)
    inside = {"components": [_entry(part) for part in component.inside]}
    return entry | {"properties": told} | (inside if component.inside else {})


def _licence(words: str) -> Json:
    """As an expression where SPDX knows it, else as a name."""
    try:
        return {"licenses": [{"expression": str(canonicalize_license_expression(words))}]}
    except InvalidLicenseExpression:
        return {"licenses": [{"license": {"name": words}}]}
