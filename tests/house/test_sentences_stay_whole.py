"""What is said to people is only read by people: no sentence is compared, searched or taken apart.

What is held here is what the syntax shows: fields that carry sentences, and what the room of words
gives. Rooms that read what a keeper wrote, or text of others, do take text apart: that is their
work.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "buildbook"
READERS = ("records", "desk", "words", "audience/leaks", "pages/story", "basis/notation.py")
"""They read a keeper's text, or make sentences."""

SENTENCES = {"verdict", "notes", "fault", "reason", "hint", "words", "findings", "caution"}
"""Fields of reports, figures, problems and rules that hold a sentence or a fragment of one."""

ALLOWED = {
    "basis/problems.py": "a hint has two forms, for a file and for a command line",
    "commands/terminal/screen.py": "the caret stands under what a reason quotes",
    "pages/aircraft/figures.py": "a note that several figures share is told once",
}
"""By module, why a sentence is looked at there; nothing follows from it but how it is set."""

TAKES_APART = {
    "startswith",
    "endswith",
    "split",
    "rsplit",
    "splitlines",
    "partition",
    "rpartition",
    "removeprefix",
    "removesuffix",
    "replace",
    "find",
    "index",
    "count",
}
SEARCHES = {"search", "match", "fullmatch", "findall", "finditer", "sub"}
COMPARES = (ast.Eq, ast.NotEq, ast.In, ast.NotIn)


def from_words(tree: ast.AST) -> set[str]:
    """Names of functions that a module takes from the room of words."""
    return {
        alias.asname or alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("buildbook.words")
        for alias in node.names
    }


def taken_apart(function: ast.AST, said: set[str]) -> Iterator[ast.AST]:
    """The nodes that compare a sentence or take it apart."""
    known: set[str] = set()
    for node in ast.walk(function):
        if isinstance(node, ast.Assign) and is_sentence(node.value, said, known):
            known |= {target.id for target in node.targets if isinstance(target, ast.Name)}
    for node in ast.walk(function):
        if isinstance(node, ast.Compare) and any(isinstance(op, COMPARES) for op in node.ops):
            sides = (node.left, *node.comparators)
            if any(is_sentence(side, said, known) for side in sides) and not is_empty(sides):
                yield node
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            name = node.func.attr
            asked = [node.func.value] if name in TAKES_APART else []
            asked += node.args if name in SEARCHES else []
            if any(is_sentence(one, said, known) for one in asked):
                yield node


def is_sentence(node: ast.AST, said: set[str], known: set[str]) -> bool:
    """Whether an expression is a field with a sentence, or came from the room of words."""
    match node:
        case ast.Attribute(attr=attr):
            return attr in SENTENCES
        case ast.Name(id=name):
            return name in known
        case ast.Call(func=ast.Name(id=name)):
            return name in said and name[:1].islower()
        case ast.BoolOp(values=values):
            return any(is_sentence(one, said, known) for one in values)
        case _:
            return False


def is_empty(sides: tuple[ast.expr, ...]) -> bool:
    """Whether it is only asked if there are words at all."""
    return any(isinstance(side, ast.Constant) and side.value in ("", None) for side in sides)


def faults(source: str) -> list[int]:
    """The lines of a module that take a sentence apart."""
    tree = ast.parse(source)
    said = from_words(tree)
    functions = [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]
    return sorted(
        {
            getattr(found, "lineno", 0)
            for function in functions
            for found in taken_apart(function, said)
        }
    )


def test_no_sentence_is_compared_searched_or_taken_apart() -> None:
    """A result goes from room to room as a typed value, and its sentence is made last."""
    found = {
        (path.relative_to(PACKAGE).as_posix(), line)
        for path in PACKAGE.rglob("*.py")
        if not path.relative_to(PACKAGE).as_posix().startswith(READERS)
        for line in faults(path.read_text("utf-8"))
    }

    assert [] == sorted((name, line) for name, line in found if name not in ALLOWED)
    assert set(ALLOWED) == {name for name, _ in found if name in ALLOWED}


WORDED_WHERE_MADE = {
    "records/checking/secrets.py": "a number that nobody may repeat is struck out",
    "records/keys/shapes.py": "the words of a list are made of those of its members",
}
"""By module of those that read or make sentences, why one is taken apart there."""


def test_who_reads_a_keeper_leaves_sentences_of_the_program_alone() -> None:
    """The rooms that take a keeper's text apart know problems and values by more than words."""
    found = {
        path.relative_to(PACKAGE).as_posix()
        for path in PACKAGE.rglob("*.py")
        if path.relative_to(PACKAGE).as_posix().startswith(READERS)
        for function in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(function, ast.FunctionDef)
        for _ in taken_apart(function, set())
    }

    assert sorted(WORDED_WHERE_MADE) == sorted(found)


def test_the_room_of_words_searches_no_text() -> None:
    """What it words it has as values: no pattern reads its own sentences again."""
    found = [
        path.relative_to(PACKAGE).as_posix()
        for path in (PACKAGE / "words").rglob("*.py")
        if any(
            isinstance(node, ast.Import) and any(one.name == "re" for one in node.names)
            for node in ast.walk(ast.parse(path.read_text("utf-8")))
        )
    ]

    assert [] == found


def test_what_takes_a_sentence_apart_is_seen() -> None:
    """Each way of it, and none of the innocent ones."""
    guilty = (
        "from buildbook.words.reasons import row_words\n"
        "def act(figure, row, days):\n"
        "    if figure.verdict == 'over the limit':\n"
        "        return figure.reason.split(', ')[0]\n"
        "    said = row_words(row, days)\n"
        "    if said.startswith('overdue') or 'stale' in row_words(row, days):\n"
        "        return pattern.match(said)\n"
    )
    innocent = (
        "from buildbook.words.reasons import row_words\n"
        "def act(figure, row, days):\n"
        "    if figure.verdict is None or figure.verdict == '' or figure.judged == 'outside':\n"
        "        return row_words(row, days)\n"
        "    return row.name.split('-')\n"
    )

    assert faults(guilty) == [3, 4, 6, 7]
    assert faults(innocent) == []


WORKERS = ("hangar", "figures/answers", "upkeep", "reporting")
"""Rooms that work with what was read; what a keeper wrote is taken apart in ``records`` alone."""

OF_NOTATION = {"NotationError", "quoted"}
PARTED = {
    "figures/answers/packs/health.py": "the decimals of a number that it words itself",
    "reporting/registry.py": "module and function of a report",
    "reporting/upkeep/programmes.py": "the mark of a built-in programme",
    "reporting/upkeep/remarks.py": "lines of a remark become one",
    "upkeep/warnings/inoperative.py": "the id of a defect, behind its file",
}
PARTS = TAKES_APART - {"startswith", "endswith", "replace", "find", "index", "count"}


def reads_text(source: str) -> bool:
    """Whether a module searches text, reads notation or takes text apart."""
    for node in ast.walk(ast.parse(source)):
        match node:
            case ast.Import(names=names) if any(one.name == "re" for one in names):
                return True
            case ast.ImportFrom(module="buildbook.basis.notation", names=names):
                if {one.name for one in names} - OF_NOTATION:
                    return True
            case ast.ImportFrom(module="buildbook.basis", names=names):
                if any(one.name == "notation" for one in names):
                    return True
            case ast.Call(func=ast.Attribute(attr=name)) if name in PARTS:
                return True
    return False


def test_what_a_keeper_wrote_is_taken_apart_in_records_alone() -> None:
    """Readings, settings, ends of wires, throws and times reach the other rooms as values."""
    found = {
        path.relative_to(PACKAGE).as_posix()
        for room in WORKERS
        for path in (PACKAGE / room).rglob("*.py")
        if reads_text(path.read_text("utf-8"))
    }

    assert sorted(PARTED) == sorted(found)
