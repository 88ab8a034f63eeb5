"""Whether a write-up can be set in a moment: Markdown of some shapes takes minutes, or never ends.

The time of setting grows with the square of the marks in a paragraph that nothing closes, and
with the number of headings; nesting costs a level of recursion each.

Front matter, keys that other programs put above a text, is left out and never told to anyone. It
begins on the first line with ``---`` (or ``+++``) and ends with the next such line, or with
``...``; one that nobody closed ends with the first blank line, if its first line is a key.
"""

import re
import sys
from collections.abc import Iterator

from buildbook.basis.sizes import most
from buildbook.records.keys.plain_text import HARMFUL, Fault, control_words

_MARKS = {"[": "square brackets", "<": "angle brackets", "`": "backticks"}
_HEADING = re.compile(r"^ {0,3}#|^ {0,3}(?:=+|-+)[ \t]*$")
_NESTED = re.compile(r"[ \t]*(?:>|[-*+](?=[ \t]|$)|\d{1,9}[.)](?=[ \t]|$))")
_ESCAPE = re.compile(r"&(?:#x([0-9a-f]{1,6})|#([0-9]{1,7})|\w{2,12});?", re.IGNORECASE)
_INDENT = 4  # columns of a level of a list


def faults_of(text: str) -> tuple[Fault, ...]:
    """What keeps a write-up from being set; nothing where all is in bounds."""
    if len(text) > most("story"):
        what = f"write-up of {len(text):,} characters, more than {most('story'):,}"
        return (Fault(what, 1, "split it, or leave logs and listings out"),)
    lines = text.split("\n")
    return tuple(
        fault
        for faults in (_paragraphs(lines), _whole(lines), _depth(lines), _characters(lines))
        for fault in faults
    )


def _paragraphs(lines: list[str]) -> Iterator[Fault]:
    """Each stretch of lines without an empty one between them, by its first line."""
    begun = 0
    for number in range(len(lines) + 1):
        if number < len(lines) and lines[number].strip():
            continue
        if number > begun:
            yield from _paragraph("\n".join(lines[begun:number]), begun + 1)
        begun = number + 1


def _paragraph(text: str, line: int) -> Iterator[Fault]:
    if len(text) > most("paragraph"):
        reason = f"paragraph of {len(text):,} characters, more than {most('paragraph'):,}"
        yield Fault(reason, line, "break it with an empty line")
    for mark, words in _MARKS.items():
        count = text.count(mark)
        if count > most("paragraph marks"):
            reason = f"paragraph of {count:,} {words}, more than {most('paragraph marks'):,}"
            yield Fault(reason, line, "break it with an empty line")
    count = sum(row.lstrip().startswith(":") for row in text.split("\n"))
    if count > most("definitions"):
        reason = f"paragraph of {count:,} definitions, more than {most('definitions'):,}"
        yield Fault(reason, line, "break it with an empty line, or write a table")


def _whole(lines: list[str]) -> Iterator[Fault]:
    """The marks and headings of all paragraphs, by the line that has the first too much."""
    counts = dict.fromkeys((*_MARKS, "#"), 0)
    names = {**_MARKS, "#": "headings"}
    limits = {**dict.fromkeys(_MARKS, most("marks")), "#": most("headings")}
    for number, row in enumerate(lines, 1):
        for mark, limit in limits.items():
            found = bool(_HEADING.match(row)) if mark == "#" else row.count(mark)
            if counts[mark] <= limit < counts[mark] + found:
                yield Fault(f"write-up of more than {limit:,} {names[mark]}", number, "shorten it")
            counts[mark] += found


def _depth(lines: list[str]) -> Iterator[Fault]:
    """Quotations and lists within each other, by their marks and by how far they stand in."""
    for number, row in enumerate(lines, 1):
        at = depth = 0
        while found := _NESTED.match(row, at):
            at, depth = found.end(), depth + 1
        if depth:
            indent = len(row.expandtabs(_INDENT)) - len(row.expandtabs(_INDENT).lstrip())
            depth += indent // _INDENT
        if depth > most("quotes") and set(row.strip()) - set("-* "):
            reason = f"lists or quotations {depth} levels deep, more than {most('quotes')}"
            yield Fault(reason, number, "write it flatter")
            return


def _characters(lines: list[str]) -> Iterator[Fault]:
    """Characters written as HTML writes them, which the reader of the page would get."""
    for number, row in enumerate(lines, 1):
        for escape in _ESCAPE.finditer(row) if "&" in row else ():
            meant = _meant(escape)
            if HARMFUL.search(meant):
                words = f"{control_words(meant)}, written as {escape.group()}"
                yield Fault(words, number, "delete it")


def _meant(escape: re.Match[str]) -> str:
    """The character; those that HTML has no use for too, which ``unescape`` leaves out."""
    six, ten = escape.groups()
    if six is None and ten is None:
        import html  # few write-ups have any, and its table is long

        return html.unescape(escape.group())
    code = int(six, 16) if six else int(ten)
    return chr(code) if code <= sys.maxunicode else ""


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
