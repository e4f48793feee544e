"""Plan data as YAML the way coaches write it: numbers unquoted, short lists in one line."""

from typing import Any

import yaml
from yaml.nodes import ScalarNode, SequenceNode

from baycue.plan.document import Data

_LONG = 10_000


class _AsWritten(yaml.SafeDumper):
    """Every scalar is text, as ``document`` reads it, so none needs quotes to stay text."""

    def increase_indent(self, flow: bool = False, indentless: bool = False) -> None:
        """A list's items stand further in than its key."""
        super().increase_indent(flow, False)


def _text(dumper: yaml.SafeDumper, text: str) -> ScalarNode:
    style = "|" if "\n" in text.strip() else None
    return dumper.represent_scalar("tag:yaml.org,2002:str", text.strip(), style=style)


def _list(dumper: yaml.SafeDumper, items: list[Any]) -> SequenceNode:
    short = all(isinstance(item, str) for item in items)
    return dumper.represent_sequence("tag:yaml.org,2002:seq", items, flow_style=short)


_AsWritten.yaml_implicit_resolvers = {}
_AsWritten.add_representer(str, _text)
_AsWritten.add_representer(list, _list)


def as_yaml(data: dict[str, Data] | list[dict[str, Data]]) -> str:
    """The data as YAML that ``read_document`` reads back the same, but for space around text."""
    text: str = yaml.dump(data, Dumper=_AsWritten, sort_keys=False, allow_unicode=True, width=_LONG)
    return text
