"""Damage to JSON data that keeps it JSON: a value changed, lost, moved or of another kind."""

import json
from copy import deepcopy
from random import Random
from typing import Any

from tests.fuzz.words import HOSTILE_WORDS

_VALUES: tuple[Any, ...] = (
    *(None, True, False, 0, -1, 1, 1.5, -0.0, 1e308, 10**18, 10**25, 10**400, 2**63, -(2**63)),
    *(float("nan"), float("inf"), float("-inf"), [], {}, [[]], {"a": 1}, [None] * 40),
    *({"dtype": "<f8", "shape": [0], "base64": ""}, {"dtype": "O", "shape": [1], "base64": "AAAA"}),
    *({"dtype": "f8,,", "shape": [-1], "base64": "AAAAAAAAAAA="}, {"dtype": "<U9", "shape": []}),
    *({"dtype": "<f8", "shape": [10**9, 10**9], "base64": "AAAAAAAAAAA="},),
    *({"dtype": "<M8[ns]", "shape": [33, 2], "base64": "AAAA" * 176},),
)


def changed(document: Any, random: Random) -> Any:
    """The document, changed in place in a few places; the document itself may be another."""
    for _ in range(random.choice((1, 1, 1, 2, 6))):
        document = _changed_once(document, random)
    return document


def as_text(document: Any, random: Random) -> bytes:
    """JSON, now and then nested deeper than anybody needs, or with a key twice."""
    text = json.dumps(document)
    if random.random() < 0.02:
        deep = random.choice((10, 900, 5000, 200_000))
        return (random.choice(("[", '{"a":')) * deep + text).encode()
    if random.random() < 0.02:
        return text.replace("{", '{"version": 1, "number": -7, ', random.randint(1, 4)).encode()
    return text.encode("utf-8", "surrogatepass")


def _changed_once(document: Any, random: Random) -> Any:
    holder, key = _anywhere(document, random)
    if holder is None:
        return _value(document, random)
    if random.random() < 0.15:
        del holder[key]
    elif random.random() < 0.1 and isinstance(holder, dict):
        holder[random.choice(HOSTILE_WORDS)] = holder.pop(key)
    else:
        holder[key] = _value(holder[key], random)
    return document


def _anywhere(document: Any, random: Random) -> tuple[Any, Any]:
    """A holder and a key or place in it, often high up and sometimes deep down."""
    holder, key, here = None, None, document
    while isinstance(here, dict | list) and here and random.random() < 0.85:
        holder = here
        key = random.choice(list(here)) if isinstance(here, dict) else random.randrange(len(here))
        here = holder[key]
    return holder, key


def _value(old: Any, random: Random) -> Any:
    kind = random.random()
    if kind < 0.3:
        return random.choice(HOSTILE_WORDS)
    if kind < 0.5 and isinstance(old, int | float) and not isinstance(old, bool):
        return random.choice((-old, old + 1, old * 1000, old // 7, 0))
    if kind < 0.5 and isinstance(old, list):
        return random.choice((old[:1], old[::-1], old + old, old[1:], [old]))
    return deepcopy(random.choice(_VALUES))  # or a later change would change the next draw
