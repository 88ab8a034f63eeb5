"""Operator numbers with their secret part: found in any text, refused, never repeated."""

import re

import msgspec

from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.records.reading.files import Files, about

# Three capitals for the state, thirteen signs, and the three that nobody else should know; written
# with a hyphen, a space or nothing between. Source: the page of one authority, as restated in the
# rules for records of this project.
_NUMBER = r"(?<![A-Za-z0-9])[A-Z]{3}[a-z0-9]{13}[- ]?[a-z0-9]{3}(?![A-Za-z0-9])"
_IN_BYTES = re.compile(_NUMBER.encode())
_PERHAPS = re.compile(rb"[A-Z][A-Z][A-Z][a-z0-9]{13}")  # quicker than the whole
_IN_TEXT = re.compile(_NUMBER)
REASON = "looks like an operator number with its secret part; remove the last three"


def secret_numbers(files: Files) -> tuple[Problem, ...]:
    """A problem for each place in the files; the message does not repeat the number."""
    found = []
    for path, content in files.content.items():
        if not _PERHAPS.search(content):
            continue
        line, counted_to = 1, 0
        for number in _IN_BYTES.finditer(content):
            line += content.count(b"\n", counted_to, number.start())
            counted_to = number.start()
            found.append(Problem(REASON, Place(path, line), about=about(path)))
    return tuple(found)


def without_secrets(problem: Problem) -> Problem:
    """The problem, with any such number in its words struck out."""
    words = f"{problem.reason} {problem.hint or ''}"
    if not _IN_TEXT.search(words):
        return problem
    hint = None if problem.hint is None else _IN_TEXT.sub("…", problem.hint)
    typed = None if problem.typed is None else _IN_TEXT.sub("…", problem.typed)
    reason = _IN_TEXT.sub("…", problem.reason)
    return msgspec.structs.replace(problem, reason=reason, hint=hint, typed=typed)
