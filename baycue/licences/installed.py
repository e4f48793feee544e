"""The packages that an installed package draws in, by their own metadata."""

from collections.abc import Iterator
from importlib.metadata import Distribution, distribution

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from baycue.licences.component import Component
from baycue.licences.said import licence_said


def drawn_in(package: str) -> tuple[Component, ...]:
    """All that is needed to run it on this system, in the order of the names; itself left out.

    Raises:
        PackageNotFoundError: one of them is not installed.
    """
    found: dict[str, Distribution] = {}
    waiting = [package]
    while waiting:
        name = waiting.pop()
        if name not in found:
            found[name] = distribution(name)
            waiting += _needs(found[name])
    del found[package]
    return tuple(
        Component(name, licence_said(found[name].metadata), f"PyPI, {name}")
        for name in sorted(found)
    )


def _needs(package: Distribution) -> Iterator[str]:
    """Names of what it asks for here, its extras left out."""
    for line in package.requires or ():
        asked = Requirement(line)
        if asked.marker is None or asked.marker.evaluate({"extra": ""}):
            yield canonicalize_name(asked.name)
