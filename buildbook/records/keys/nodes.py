"""The nodes of YAML, told apart without the parser, which what was read before never loads."""

from typing import TYPE_CHECKING, Any, TypeGuard

from buildbook.basis.notation import quoted

if TYPE_CHECKING:
    from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode
else:
    MappingNode = Node = ScalarNode = SequenceNode = Any


def is_text(node: Any) -> TypeGuard[ScalarNode]:
    """Whether it is one value, as written."""
    kind: str = node.id
    return kind == "scalar"


def is_list(node: Any) -> TypeGuard[SequenceNode]:
    """Whether it is a list."""
    kind: str = node.id
    return kind == "sequence"


def is_group(node: Any) -> TypeGuard[MappingNode]:
    """Whether it is a group of keys."""
    kind: str = node.id
    return kind == "mapping"


def line_of(node: Node) -> int:
    """The line where a node begins, from 1."""
    line: int = node.start_mark.line
    return line + 1


def shape_of(node: Node) -> str:
    """What was found, in words for a message: a value in quotes, or the kind of structure."""
    if is_text(node):
        return quoted(node.value) if node.value else "nothing"
    return "a list" if is_list(node) else "a group of keys"


__all__ = [
    "MappingNode",
    "Node",
    "ScalarNode",
    "SequenceNode",
    "is_group",
    "is_list",
    "is_text",
    "line_of",
    "shape_of",
]
