"""One thing that is shipped or installed, and what may be done with it."""

from dataclasses import dataclass

GOES_WITH_ANY = frozenset(
    {"0BSD", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "BSD License", "CC0-1.0", "ISC"}
    | {"MIT", "MIT-0", "MIT-CMU", "PSF-2.0", "Python Software Foundation License", "Zlib"}
    | {"GPL-3.0-or-later WITH GCC-exception-3.1"}
)
"""Licences that ask for little more than their own text to be passed on.

The exception is for the runtime library that GCC links to whatever it compiles.
"""


@dataclass(frozen=True, slots=True)
class Component:
    """A package, a file of ours, or something inside a package.

    ``licence``: an SPDX identifier or expression where its maker gives one, else the maker's word.
    ``path``: of a file of ours, from the package's folder, with wildcards; empty for a package.
    ``kind``: ``library`` or ``file``, as CycloneDX has them.
    """

    name: str
    licence: str
    origin: str = ""
    remark: str = ""
    path: str = ""
    kind: str = "library"
    inside: "tuple[Component, ...]" = ()

    @property
    def asks_for_more(self) -> bool:
        """Whether it, or something inside it, has a condition that Apache-2.0 has not."""
        words = self.licence.replace("(", " ").replace(")", " ")
        parts = words.replace(" AND ", "|").replace(" OR ", "|").split("|")
        plain = all(part.strip() in GOES_WITH_ANY for part in parts)
        return not plain or any(part.asks_for_more for part in self.inside)
