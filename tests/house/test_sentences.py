"""What people read is made of facts, and never read back by the program."""

import ast
from collections import defaultdict
from collections.abc import Mapping
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


SENTENCE = 5
"""Words that make a text a sentence here, not the name of a value."""


def said_twice(modules: Mapping[str, str]) -> dict[str, list[str]]:
    """By text, the modules that each write it out; what a figure declares of itself is left out."""
    found: dict[str, set[str]] = defaultdict(set)
    for name, source in modules.items():
        tree = ast.parse(source)
        left_out: set[int] = set()
        for node in ast.walk(tree):
            declared = isinstance(node, ast.Call) and ast.unparse(node.func) == "FigureSpec"
            documents = isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
            if declared or documents:
                left_out |= {id(each) for each in ast.walk(node)}
        for node in ast.walk(tree):
            text = node.value if isinstance(node, ast.Constant) else None
            said = text.strip() if isinstance(text, str) and id(node) not in left_out else ""
            if len(said.split()) >= SENTENCE:
                found[said].add(name)
    return {text: sorted(names) for text, names in found.items() if len(names) > 1}


def test_what_several_figures_say_has_one_home() -> None:
    """A sentence that two modules of answers write out has no name that they share."""
    answers = ROOT / "figures" / "answers"

    assert {} == said_twice(
        {
            path.relative_to(answers).as_posix(): path.read_text("utf-8")
            for path in answers.rglob("*.py")
        }
    )


def test_what_is_said_twice_is_seen() -> None:
    """Also within another text, but no docstring and no declaration."""
    said = "a hover takes no more"
    modules = {
        "a": f"words = '{said}'",
        "b": f"words = f'{said}{{reason}}'",
        "c": f"'{said}'\nFigureSpec(line='{said}')",
    }

    assert {said: ["a", "b"]} == said_twice(modules)
