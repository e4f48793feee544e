"""Which licence a Python package says it has.

Packages say it in three ways, the newest first: an SPDX expression (PEP 639), a free text, which in
some is the whole licence, and a trove classifier.
"""

from importlib.metadata import PackageMetadata

_SPDX = {
    "Apache 2.0": "Apache-2.0",
    "Apache Software License": "Apache-2.0",
    "ISC License": "ISC",
    "ISC License (ISCL)": "ISC",
    "MIT License": "MIT",
    "Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
}
"""Words that can mean one licence only; "BSD License" may mean three, so it stays as it is."""
_CLASSIFIER = "License :: "
_LONGEST_NAME = 40


def licence_said(metadata: PackageMetadata) -> str:
    """SPDX where that is plain, else the package's own words; "not said" if it says nothing."""
    said = (*_lines(metadata, "License-Expression"), *_names(metadata), "not said")[0]
    return _SPDX.get(said, said)


def _names(metadata: PackageMetadata) -> list[str]:
    free = _lines(metadata, "License")
    told = [line for line in _lines(metadata, "Classifier") if line.startswith(_CLASSIFIER)]
    short = [text for text in free if text and len(text) <= _LONGEST_NAME and "\n" not in text]
    return short + [line.rpartition(" :: ")[2] for line in told]


def _lines(metadata: PackageMetadata, key: str) -> list[str]:
    return [str(line).strip() for line in metadata.get_all(key) or ()]
