"""An entry as text: in the way the logbooks of this program are written."""

import json
import re
from collections.abc import Mapping, Sequence
from typing import TypeAlias

from buildbook.records.keys.plain_text import Unreadable
from buildbook.records.keys.yaml_nodes import MappingNode, Node, ScalarNode, compose

Tree: TypeAlias = "str | Sequence[Tree] | Mapping[str, Tree]"
"""What stands in a file: texts, lists and groups; everything is text, as the reader has it."""

Entry = Mapping[str, Tree]
"""An entry by its keys, as it stands in a file."""

_WIDTH = 100
_PLAIN = re.compile(r"(?:[^\W_]|[-+.][0-9]|[/°(])[^\s]*(?: [^\s#][^\s]*)*").fullmatch
_NOT_IN_BRACKETS = re.compile(r"[,\[\]{}]|:\W").search


def entry_text(entry: Entry) -> str:
    """The lines of an entry, the first with its hyphen, each with a line feed at its end."""
    lines = [line for key, value in entry.items() for line in _pair(key, value)]
    return "".join(f"{'  ' if at else '- '}{line}\n" for at, line in enumerate(lines))


def as_tree(text: str) -> Tree:
    """Only for texts in brackets: the list or group that they hold. ValueError: they hold none."""
    try:
        node = compose(text.encode())
    except Unreadable as error:
        raise ValueError(error.faults[0].reason) from None
    return "" if node is None else tree_of(node)


def tree_of(node: Node) -> Tree:
    """What a node of YAML holds, without its lines."""
    if isinstance(node, ScalarNode):
        return str(node.value)
    if isinstance(node, MappingNode):
        return {str(tree_of(key)): tree_of(member) for key, member in node.value}
    return [tree_of(member) for member in node.value]


def _pair(key: str, value: Tree) -> list[str]:
    """A key and its value: on one line where that is short, else a line for each member."""
    name = scalar(key)
    line = f"{name}: {flow(value) if not isinstance(value, str) else scalar(value)}"
    if len(line) <= _WIDTH or isinstance(value, str) or len(value) < 2:
        return [line]
    if isinstance(value, Mapping):
        return [f"{name}:", *(f"  {scalar(each)}: {flow(value[each])}" for each in value)]
    return [f"{name}:", *(f"  - {flow(member)}" for member in value)]


def flow(value: Tree) -> str:
    """A value on one line, lists and groups in brackets."""
    if isinstance(value, str):
        return scalar(value, in_brackets=True)
    if isinstance(value, Mapping):
        pairs = (f"{scalar(key, in_brackets=True)}: {flow(each)}" for key, each in value.items())
        return "{" + ", ".join(pairs) + "}"
    return "[" + ", ".join(flow(each) for each in value) + "]"


def scalar(text: str, *, in_brackets: bool = False) -> str:
    """A text as YAML reads it back: plain where it can be, else in double quotes."""
    plain = (
        text.isprintable()
        and _PLAIN(text) is not None
        and ": " not in text
        and text[-1] != ":"
        and not (in_brackets and _NOT_IN_BRACKETS(text))
    )
    return text if plain else json.dumps(text, ensure_ascii=False)
