"""Places between angle brackets that were taken over and not filled in: ``mass: <mass> g``."""

import re

from buildbook.basis.notation import quoted
from buildbook.records.keys.nodes import is_text, line_of
from buildbook.records.keys.plain_text import Fault
from buildbook.records.keys.yaml_nodes import Node, ScalarNode

_PLACE = re.compile(r"[^\s<>]{0,20}<[a-z][^<>]*>( [^\s<>]{1,9})?").fullmatch


def to_fill(content: bytes, root: Node | None) -> list[Fault]:
    """Each unquoted text, keys among them, that is such a place and nothing else."""
    if root is None or b"<" not in content:
        return []
    found: list[ScalarNode] = []
    waiting: list[Node] = [root]
    while waiting:
        node = waiting.pop()
        if is_text(node):
            if not node.style and _PLACE(node.value):
                found.append(node)
        else:
            for child in node.value:
                waiting += child if isinstance(child, tuple) else (child,)
    found.sort(key=lambda node: (node.start_mark.line, node.start_mark.column))
    return [
        Fault(f"{quoted(node.value)} is still to be filled in", line_of(node), _HINT)
        for node in found
    ]


_HINT = "write what you read or measured in place of <…>, brackets too; or delete that line"
