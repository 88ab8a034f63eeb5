"""Who imports whom inside the house."""

import ast
from collections.abc import Iterable, Iterator
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

ROOT = Path(__file__).parents[2]
SMALL, TOGETHER = 100, 380
"""Lines of a module that may be a part of its neighbour, and of the two as one."""


def name_of(path: Path) -> str:
    """As it is imported."""
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


MODULES = {name_of(path): path for path in sorted((ROOT / "buildbook").rglob("*.py"))}
TREES = {name: ast.parse(path.read_text("utf-8")) for name, path in MODULES.items()}


def imported(nodes: Iterable[ast.AST]) -> Iterator[str]:
    """The modules of the house that these statements import."""
    for node in nodes:
        if isinstance(node, ast.ImportFrom):
            for alias in node.names:
                inner = f"{node.module}.{alias.name}"
                yield inner if inner in MODULES else str(node.module)
        elif isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)


def test_no_modules_import_each_other() -> None:
    """As they are loaded; what a function imports when it is called comes later."""
    graph = {
        name: {one for one in imported(tree.body) if one in MODULES}
        for name, tree in TREES.items()
        if MODULES[name].name != "__init__.py"
    }

    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        raise AssertionError(" -> ".join(error.args[1])) from None


def test_what_serves_one_neighbour_alone_is_part_of_it() -> None:
    """A small module that one module of its folder imports and no other, while both fit in one."""
    users: dict[str, set[str]] = {name: set() for name in MODULES}
    for name, tree in TREES.items():
        for one in imported(ast.walk(tree)):
            if one in users and one != name:
                users[one].add(name)
    lines = {name: len(path.read_text("utf-8").splitlines()) for name, path in MODULES.items()}

    alone = [(name, *found) for name, found in users.items() if len(found) == 1]

    assert {} == {
        name: user
        for name, user in alone
        if MODULES[name].parent == MODULES[user].parent
        and "__init__.py" not in (MODULES[name].name, MODULES[user].name)
        and lines[name] <= SMALL
        and lines[name] + lines[user] <= TOGETHER
    }
