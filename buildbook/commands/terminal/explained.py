"""The line of a problem as it is written, with a caret under what is meant."""

import re
from collections.abc import Iterator
from pathlib import Path

from buildbook.basis.problems import Problem
from buildbook.records.keys.plain_text import Unreadable, decoded

_WIDTH = 74  # of the line that is shown; a longer one is cut around the caret
_NAMED = re.compile(r"'([^']+)'")


def explained(problem: Problem, folder: Path) -> Iterator[str]:
    """The line with its number, and a caret below; nothing where the file has no such line.

    The caret stands under the first words that the reason quotes and the line has, else under
    where the line begins.
    """
    lines = _lines(folder / problem.place.file)
    number = problem.place.line
    if not 1 <= number <= len(lines) or not lines[number - 1].strip():
        return
    line = lines[number - 1].replace("\t", " ").rstrip()
    named = _NAMED.findall(problem.reason)
    found = [(line.index(words), len(words)) for words in named if words in line]
    column, length = found[0] if found else (len(line) - len(line.lstrip(" -")), 1)
    start = max(0, min(column - _WIDTH // 2, len(line) - _WIDTH))
    shown = line[start : start + _WIDTH]
    margin = f"{number:>5} | "
    yield f"{margin}{shown}"
    yield f"{' ' * (len(margin) + column - start)}{'^' * min(length, len(shown) - column + start)}"


def _lines(path: Path) -> list[str]:
    try:
        return decoded(path.read_bytes()).split("\n")
    except (OSError, ValueError, Unreadable):  # told as a problem of its own
        return []
