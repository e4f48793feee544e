"""The packages that Baycue needs: loaded, of a fitting version, and one OpenCV only."""

from importlib import import_module
from importlib.metadata import PackageNotFoundError, requires, version

from packaging.requirements import Requirement

from baycue.doctor.system_libraries import missing_library
from baycue.pose.quiet import native_stderr_silenced
from baycue.setup.report import Answer, SetUpRow

_LIBRARIES = {"av": "av", "cv2": "opencv-contrib-python", "mediapipe": "mediapipe"} | {
    "pygame": "pygame-ce",
    "scipy": "scipy",
}
"""Modules that need something of the system, and the packages that bring them."""
INSTALL_AGAIN = "Install Baycue again in a fresh virtual environment."
_TOLD_PACKAGES = 4


def libraries() -> SetUpRow:
    """The libraries, each really loaded."""
    told = []
    for module, package in _LIBRARIES.items():
        try:
            with native_stderr_silenced():
                import_module(module)
            told.append(f"{package} {version(package)}")
        except (ImportError, OSError, PackageNotFoundError) as error:
            what = str(error).splitlines()[0]
            return SetUpRow("libraries", Answer.NO_GO, f"{package}: {what}", lacking(what))
    return SetUpRow("libraries", Answer.GO, ", ".join(told))


def versions() -> SetUpRow:
    """Whether every package that Baycue asks for is there, in a version that it asks for."""
    try:
        needed = _needed()
    except PackageNotFoundError:
        return SetUpRow("versions", Answer.NO_GO, "Baycue itself is not installed", INSTALL_AGAIN)
    wrong = [(r, _installed(r.name)) for r in needed if not _is_met(r)]
    if not wrong:
        return SetUpRow("versions", Answer.GO, f"all {len(needed)} packages as asked for")
    told = ", ".join(f"{r.name} {found or 'missing'}" for r, found in wrong[:_TOLD_PACKAGES])
    lines = " ".join(f"'{r.name}{r.specifier}'" for r, _ in wrong)
    return SetUpRow("versions", Answer.NO_GO, told, f"In Baycue's environment: pip install {lines}")


def one_opencv() -> SetUpRow:
    """OpenCV's packages all own the folder ``cv2``; two of them break each other."""
    names = ("opencv-python", "opencv-python-headless", "opencv-contrib-python")
    found = [name for name in names if _installed(name) is not None]
    if found == ["opencv-contrib-python"]:
        return SetUpRow("one OpenCV", Answer.GO, found[0])
    do = "pip uninstall all of them, then pip install opencv-contrib-python."
    return SetUpRow("one OpenCV", Answer.NO_GO, ", ".join(found) or "none", do)


def lacking(error: str) -> str:
    """What to do about a part that does not load."""
    missing = missing_library(error)
    return f"{missing[0].upper()}{missing[1:]}" if missing else INSTALL_AGAIN


def _needed() -> list[Requirement]:
    asked = [Requirement(line) for line in requires("baycue") or ()]
    return [r for r in asked if r.marker is None or r.marker.evaluate({"extra": ""})]


def _is_met(asked: Requirement) -> bool:
    found = _installed(asked.name)
    return found is not None and asked.specifier.contains(found, prereleases=True)


def _installed(package: str) -> str | None:
    try:
        return version(package)
    except PackageNotFoundError:
        return None
