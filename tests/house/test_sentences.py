"""What people read is made of facts, and never read back by the program."""

import ast
from pathlib import Path

ROOT = Path(__file__).parents[2] / "buildbook"
SENTENCES = ("verdict", "notes")
"""Fields that hold sentences: for reading only."""

TAKEN_APART = ("startswith", "endswith", "split", "partition", "rpartition", "removeprefix")


def sentences(node: ast.AST) -> list[str]:
    """The fields with sentences that an expression takes up."""
    return [
        each.attr
        for each in ast.walk(node)
        if isinstance(each, ast.Attribute) and each.attr in SENTENCES
    ]


def misused(tree: ast.AST) -> list[int]:
    """The lines on which a sentence is compared with text, or taken apart."""
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Compare):
            sides = [node.left]  # a note may be looked for among notes
            if any(isinstance(op, ast.Eq | ast.NotEq) for op in node.ops):
                sides += node.comparators
            if any(isinstance(op, ast.Is | ast.IsNot) for op in node.ops):
                sides = []
            if any(map(sentences, sides)):
                found.append(node.lineno)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            apart = node.func.attr in TAKEN_APART and sentences(node.func.value)
            matched = node.func.attr in ("match", "search") and any(map(sentences, node.args))
            if apart or matched:
                found.append(node.lineno)
    return found


def test_no_verdict_or_note_is_compared_or_taken_apart() -> None:
    """Whoever acts on a figure asks its ``judged``, ``fault``, ``odd``, ``load`` or ``weighed``."""
    found = [
        f"{path.relative_to(ROOT)}:{line}"
        for path in sorted(ROOT.rglob("*.py"))
        for line in misused(ast.parse(path.read_text("utf-8")))
    ]

    assert [] == found


def test_what_is_misused_is_seen() -> None:
    """A comparison, a prefix, a pattern; asking whether there is one at all is fine."""
    told = ("figure.verdict == 'lossy'", "f.verdict.startswith('a')", "ODD.match(f.verdict or '')")

    assert [[1], [1], [1]] == [misused(ast.parse(line)) for line in told]
    assert [] == misused(ast.parse("figure.verdict is None"))
