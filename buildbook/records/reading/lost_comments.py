"""Text that YAML takes for a comment: ``tried prop #3`` ends at ``prop``."""

import re
from collections.abc import Iterator

from buildbook.records.keys.yaml_nodes import MappingNode, Node, ScalarNode

_LIKELY = re.compile(rb"[^\s#] +#[A-Za-z0-9]").search
_REST = re.compile(r" +(#[A-Za-z0-9][^\n]*)").match


def lost_to_comments(content: bytes, root: Node | None) -> Iterator[tuple[int, str]]:
    """Line and words of each comment that directly follows unquoted text, in the order of them.

    One with a space after the # is meant as a comment, and an entry with ``sure: true`` as it is.
    Most files have no such line at all.
    """
    if root is None or _LIKELY(content) is None:
        return
    lines = content.decode("utf-8", "replace").splitlines()
    for node in _plain(root):
        end = node.end_mark
        if end.line < len(lines):
            rest = _REST(lines[end.line][end.column :])
            if rest is not None:
                yield end.line + 1, rest.group(1).strip()


def _plain(root: Node) -> Iterator[ScalarNode]:
    """The unquoted texts below a node; a quoted one or a block keeps its #."""
    waiting = [root]
    while waiting:
        node = waiting.pop()
        if isinstance(node, MappingNode) and _is_sure(node):
            continue
        if isinstance(node, ScalarNode):
            if not node.style and node.value:
                yield node
        elif isinstance(node.value, list):
            for child in reversed(node.value):
                waiting += reversed(child) if isinstance(child, tuple) else (child,)


def _is_sure(node: MappingNode) -> bool:
    return any(key.value == "sure" and value.value == "true" for key, value in node.value)
