"""All that is fuzzed, by name; each is imported only where it is fed."""

from importlib import import_module

from tests.fuzz.target import Target

_MODULES = {
    "plan": "plans",
    "sidecar": "sidecars",
    "clip": "clips",
    "log": "logs",
    "name": "names",
}
_TRIAL = {"trial": "trial"}
"""Which tries the watchdog itself; no campaign takes it."""

NAMES = tuple(_MODULES)


def target_named(name: str) -> Target:
    """One of them; KeyError for a name that is none."""
    module = import_module(f"tests.fuzz.{(_MODULES | _TRIAL)[name]}")
    target: Target = module.TARGET
    return target
