"""Front matter of a build story: keys that other programs put above a text, never told to anyone.

It begins on the first line with ``---`` (or ``+++``) and ends with the next such line, or with
``...``; one that nobody closed ends with the first blank line, if its first line is a key.
"""

import re

_OPENS = ("---", "+++")
_KEY = re.compile(r"[\w\"'][\w .\"'-]{0,80}[:=]")


def without_front_matter(text: str) -> str:
    """The text with its front matter made blank lines, so that the lines keep their count."""
    lines = text.splitlines(keepends=True)
    end = _end(lines)
    return "\n" * end + "".join(lines[end:])


def _end(lines: list[str]) -> int:
    """How many lines of the text are front matter."""
    if not lines or lines[0].rstrip() not in _OPENS:
        return 0
    shut = (lines[0].rstrip(), "...")
    for number, line in enumerate(lines[1:], 1):
        if line.rstrip() in shut:
            return number + 1
    if len(lines) < 2 or not _KEY.match(lines[1].strip()):
        return 0
    return next((at for at, line in enumerate(lines) if not line.strip()), len(lines))
