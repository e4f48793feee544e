"""Print a JSON Schema."""

import difflib
import json
from collections.abc import Callable
from typing import Any

from baycue.errors import BaycueError


def run_schema(of: str) -> None:
    """Print the schema of ``plan`` or ``score``."""
    from baycue.plan.load import plan_schema
    from baycue.report.document import schema

    known: dict[str, Callable[[], dict[str, Any]]] = {"plan": plan_schema, "score": schema}
    if of not in known:
        guess = difflib.get_close_matches(of, known, n=1, cutoff=0.3)
        hint = f'; did you mean "{guess[0]}"?' if guess else ""
        raise BaycueError(f'no schema of "{of}"; there are {" and ".join(known)}{hint}')
    print(json.dumps(known[of](), indent=2))
