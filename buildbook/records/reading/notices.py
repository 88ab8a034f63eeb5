"""Notices from their nodes."""

from buildbook.basis.notation import quoted
from buildbook.basis.problems import Problems
from buildbook.records.keys.fields import complete, fields_of, missing, read_fields
from buildbook.records.keys.scope import Scope, pairs_of
from buildbook.records.keys.yaml_nodes import Node
from buildbook.records.notices import Notice
from buildbook.records.reading.parts import Named, records_in


def read_notices(
    root: Node | None, file: str, problems: Problems, names: Named, notices: dict[str, Notice]
) -> None:
    """Read one file of notices into ``notices``."""
    for node in records_in(root, Scope(file, 1, problems), "notice"):
        scope = Scope(file, node.start_mark.line + 1, problems)
        pairs, fields = pairs_of(node, scope), fields_of(Notice)
        read = read_fields(pairs, fields, scope, "a notice")
        name = read.get("notice")
        missing(
            pairs, fields, scope, None, "a notice" if name is None else f"notice {quoted(name)}"
        )
        new = name is not None and names.add(name, pairs["notice"][1], scope)
        if new and complete(read, fields):
            notices[read["notice"]] = Notice(file=file, line=scope.line, lines=scope.lines, **read)
