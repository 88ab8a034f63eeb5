"""No law is kept that no answer needs."""

import ast
from collections.abc import Iterator
from pathlib import Path

from buildbook.figures.laws.registry import LAWS

ROOT = Path(__file__).parents[2] / "buildbook"
ROOM = ROOT / "figures/laws"
REGISTRIES = {ROOM / "registry.py", ROOM / "flight_registry.py"}


def names(node: ast.AST) -> Iterator[str]:
    """What a piece of code may mean a law by: a name, an attribute, a text."""
    for part in ast.walk(node):
        if isinstance(part, ast.Name):
            yield part.id
        elif isinstance(part, ast.Attribute):
            yield part.attr
        elif isinstance(part, ast.Constant) and isinstance(part.value, str):
            yield part.value


def used() -> set[str]:
    """All that is named outside of the room of laws, and what that rests on inside of it."""
    inside: dict[str, set[str]] = {}
    waiting: set[str] = set()
    for path in sorted(ROOT.rglob("*.py")):
        tree = ast.parse(path.read_text("utf-8"))
        if not path.is_relative_to(ROOM):
            waiting.update(names(tree))
        elif path not in REGISTRIES:
            for one in tree.body:
                if isinstance(one, ast.FunctionDef | ast.ClassDef):
                    inside.setdefault(one.name, set()).update(names(one))
    found: set[str] = set()
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting |= inside.get(name, set())
    return found


def test_every_law_is_used_by_an_answer() -> None:
    """Or by a law that is."""
    assert [] == sorted(set(LAWS) - used())
