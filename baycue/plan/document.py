"""A plan's YAML text as plain data that remembers its lines.

Scalars stay text as written, so that no YAML guess (``no``, ``5:30``, ``007``) changes them.
Anchors, aliases and tags have no use in a plan and are refused.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

Path = tuple[str | int, ...]
Data = str | list["Data"] | dict[str, "Data"]

_DEEPEST = 12
_MOST_VALUES = 2000
_LONGEST_VALUE = 1000
_LONGEST_WORD = 60


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One thing wrong in a plan: its line (from 1), the key it concerns, and what it is."""

    line: int
    key: str
    text: str


@dataclass(slots=True)
class Document:
    """Plain data, the line of each path in it, and what was wrong with the YAML itself."""

    data: Data = ""
    lines: dict[Path, int] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)

    def line_of(self, path: Path) -> int:
        """The line of a path, or of the nearest thing that holds it."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 1)


def read_document(text: str) -> Document:
    """Parse YAML text; syntax faults come back in ``faults``, never as an exception."""
    try:
        faults = list(_forbidden(text))
        node = None if faults else yaml.compose(text, Loader=yaml.SafeLoader)
    except yaml.MarkedYAMLError as error:
        return Document(faults=[_syntax_fault(error)])
    except yaml.reader.ReaderError as error:
        line = text.count("\n", 0, int(error.position)) + 1
        return Document(faults=[Fault(line, "", f"has a forbidden character: {_code(error)}")])
    document = Document(faults=faults)
    if node is None:
        document.faults = faults or [Fault(1, "", "is empty; a plan needs student, view, targets")]
    else:
        document.data = _plain(node, (), document)
    return document


def _syntax_fault(error: yaml.MarkedYAMLError) -> Fault:
    mark = error.problem_mark or error.context_mark
    told = ", ".join(part for part in (error.context, error.problem) if part)
    if "'\\t'" in told:
        told = "a tab stands where spaces belong; indent with spaces"
    return Fault(mark.line + 1 if mark else 1, "", f"not valid YAML: {told}")


def _code(error: yaml.reader.ReaderError) -> str:
    code = error.character if isinstance(error.character, int) else ord(error.character)
    return f"U+{code:04X}"


def _forbidden(text: str) -> Iterator[Fault]:
    depth = values = 0
    for event in yaml.parse(text, Loader=yaml.SafeLoader):
        depth += isinstance(event, yaml.CollectionStartEvent)
        depth -= isinstance(event, yaml.CollectionEndEvent)
        values += isinstance(event, yaml.NodeEvent)
        line = event.start_mark.line + 1 if event.start_mark else 1
        if depth > _DEEPEST:
            yield Fault(line, "", f"is nested more than {_DEEPEST} deep")
            return
        if values > _MOST_VALUES:
            yield Fault(line, "", f"has more than {_MOST_VALUES} keys and values; is it a plan?")
            return
        yield from (Fault(line, "", text) for text in _forbidden_in(event))


def _forbidden_in(event: yaml.Event) -> Iterator[str]:
    if isinstance(event, yaml.NodeEvent) and event.anchor:
        yield f'"{_short(event.anchor)}": anchors and aliases (&, *) are not allowed'
    if isinstance(event, yaml.ScalarEvent | yaml.CollectionStartEvent) and event.tag:
        yield f'"{_short(event.tag)}": tags (!) are not allowed'
    if isinstance(event, yaml.ScalarEvent):
        if len(event.value) > _LONGEST_VALUE:
            yield f"has {len(event.value)} characters in one place; allowed: {_LONGEST_VALUE}"
        wrong = next((c for c in event.value if not c.isprintable() and c not in "\n\t"), None)
        if wrong is not None:
            yield f"has a forbidden character: U+{ord(wrong):04X}"


def _short(word: str) -> str:
    return word if len(word) <= _LONGEST_WORD else f"{word[:_LONGEST_WORD]}..."


def _plain(node: Node, path: Path, document: Document) -> Data:
    document.lines.setdefault(path, _line(node))
    if isinstance(node, MappingNode):
        return _plain_mapping(node, path, document)
    if isinstance(node, SequenceNode):
        return [_plain(item, (*path, i), document) for i, item in enumerate(node.value)]
    return str(node.value)


def _line(node: Node) -> int:
    return node.start_mark.line + 1 if node.start_mark else 1


def _plain_mapping(node: MappingNode, path: Path, document: Document) -> Data:
    data: dict[str, Data] = {}
    for key_node, value_node in node.value:
        line = _line(key_node)
        key = str(key_node.value)
        if not isinstance(key_node, ScalarNode):
            document.faults.append(Fault(line, "", "a key must be one word"))
        elif key in data:
            first = document.lines[(*path, key)]
            text = f"given twice; the first is in line {first}"
            document.faults.append(Fault(line, dotted((*path, key)), text))
        else:
            document.lines[(*path, key)] = line
            data[key] = _plain(value_node, (*path, key), document)
    return data


def dotted(path: Path) -> str:
    """``("targets", 1, "at")`` as ``targets[2].at``; people count from 1."""
    text = ""
    for part in path:
        text += f"[{part + 1}]" if isinstance(part, int) else f".{part}"
    return text.removeprefix(".")
