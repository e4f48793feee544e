"""What a room's modules define, so that a new one is one file and nothing else."""

import importlib
import pkgutil
from types import ModuleType
from typing import Any


def discovered(package: ModuleType, name: str) -> list[Any]:
    """What each module of ``package`` that defines ``name`` has by it, in order of the modules."""
    modules = [
        importlib.import_module(f"{package.__name__}.{info.name}")
        for info in pkgutil.iter_modules(package.__path__)
    ]
    return [getattr(module, name) for module in modules if hasattr(module, name)]
