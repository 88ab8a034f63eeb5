"""Where the inserts of a build story stand, found without rendering it.

An insert stands on a line of its own: ``@ layout``; one figure may stand inside a sentence:
``@[hover_current]``. What stands in code, in an address or in the title is text.
"""

import re
from collections.abc import Iterator
from typing import Literal

import msgspec

from buildbook.audience.paragraphs import fenced, unmarked

# These two and the title are matched against a line without the blanks at its end.
_LINE = re.compile(r" {0,3}@(?:[ \t]+(.*))?$")
_BRACES = re.compile(r" {0,3}\{\{(.*)\}\}$")
# Neither part of an address nor a name that links somewhere: a@[b], @[Jon](https://…).
_SENTENCE = re.compile(r"(?<![\w.+/\\-])@\[([^\[\]\n]*)\](?![(\[])")
PICTURE = re.compile(
    r"(?<!\\)!\[([^\[\]\n]{0,2000})\]"
    r"\([ \t]{0,4}(<[^<>\n]{1,400}>|[^\s()<>]{1,400})"
    r"(?:[ \t]{1,4}\"([^\"\n]{0,400})\")?[ \t]{0,4}\)"
)
"""``![what is to be seen](arm.jpg "a caption")``: words, file, caption."""
_OF_DASHES = frozenset(" \t|:-")
_TITLE = re.compile(r"#\s+(?=\S)(.+)")
_INDENTED = re.compile(r"^(?: {4}| {0,3}\t)")
_LIST = re.compile(r"^ {0,3}(?:[-*+:]|\d+\.)\s")
_CODE_SPAN = re.compile(r"(?<![\\`])(`+)(?!`)(.+?)(?<!`)\1(?!`)", re.DOTALL)


class Asked(msgspec.Struct, frozen=True):
    """An insert as written, and its line in the file.

    form: alone on a ``line``, inside a ``sentence``, a ``picture`` as Markdown has it, one in the
    ``cell`` of a table, or in ``braces``, which are no longer read.
    """

    words: str
    line: int
    form: Literal["line", "sentence", "picture", "cell", "braces"] = "line"

    @property
    def written(self) -> str:
        """As it stands in the file."""
        forms = {"line": "@ {}", "sentence": "@[{}]", "braces": "{{{{ {} }}}}"}
        return forms.get(self.form, "{}").format(self.words)


class Standing(msgspec.Struct, frozen=True):
    """An insert, and from which column of its line to which it stands."""

    asked: Asked
    start: int
    end: int


def asked_in(text: str) -> tuple[Asked, ...]:
    """All inserts of a story, as they come."""
    return tuple(found.asked for found in inserts_of(unmarked(text).splitlines()))


def title_line(lines: list[str]) -> tuple[int, str] | None:
    """Index and words of the heading that a story begins with."""
    for at, line in enumerate(lines):
        if line.strip():
            found = _TITLE.match(line.rstrip())
            words = found.group(1) if found else ""
            return (at, words.rstrip("#").rstrip() or "#") if found else None
    return None


def inserts_of(lines: list[str]) -> Iterator[Standing]:
    """Where each insert stands, line by line."""
    title = title_line(lines)
    code = fenced(lines)
    code |= _indented(lines, code)
    spans = _code_spans(lines, code)
    rows = _table_rows(lines)
    for at, line in enumerate(lines):
        if at in code or (title and at == title[0]):
            continue
        alone = _alone(line, at + 1)
        if alone is not None:
            yield Standing(alone, 0, len(line))
            continue
        for found in sorted((*_SENTENCE.finditer(line), *PICTURE.finditer(line)), key=_start):
            if not any(start <= found.start() < end for start, end in spans.get(at, ())):
                asked = _asked(found, at + 1, in_table=at in rows)
                yield Standing(asked, found.start(), found.end())


def _start(found: re.Match[str]) -> int:
    return found.start()


def _table_rows(lines: list[str]) -> set[int]:
    """The lines of tables: a line of dashes, the one above it, and those below to a blank one."""
    rows: set[int] = set()
    inside = False
    for at, line in enumerate(lines):
        if not line.strip():
            inside = False
        elif at and "|" in lines[at - 1] and {"|", "-"} <= set(line) <= _OF_DASHES:
            inside = True
            rows.add(at - 1)
        if inside:
            rows.add(at)
    return rows


def _asked(found: re.Match[str], line: int, in_table: bool) -> Asked:
    if found.re is PICTURE:
        return Asked(found.group(), line, "cell" if in_table else "picture")
    return Asked(found.group(1).strip(), line, "sentence")


def _alone(line: str, number: int) -> Asked | None:
    line = line.rstrip()
    found = _LINE.match(line)
    if found:
        return Asked(found.group(1) or "", number)
    braces = _BRACES.match(line)
    return Asked(braces.group(1).strip(), number, "braces") if braces else None


def _indented(lines: list[str], fenced: set[int]) -> set[int]:
    """The lines of indented code: after a blank line, and not the inside of a list."""
    inside: set[int] = set()
    in_list, blank = False, True
    for at, line in enumerate(lines):
        if not line.strip():
            blank = True
            continue
        if at in fenced:
            in_list, blank = False, False
        elif _INDENTED.match(line):
            if not in_list and (blank or at - 1 in inside):
                inside.add(at)
        elif _LIST.match(line):
            in_list = True
        elif blank:
            in_list = False
        blank = False
    return inside


def _code_spans(lines: list[str], code: set[int]) -> dict[int, list[tuple[int, int]]]:
    """By line, the columns between backticks; a span may run on inside its paragraph."""
    spans: dict[int, list[tuple[int, int]]] = {}
    at = 0
    while at < len(lines):
        end = at
        while end < len(lines) and lines[end].strip() and end not in code:
            end += 1
        text = "\n".join(lines[at:end])
        for found in _CODE_SPAN.finditer(text):
            start = 0
            for number in range(at, end):
                spans.setdefault(number, []).append((found.start() - start, found.end() - start))
                start += len(lines[number]) + 1
        at = max(end, at + 1)
    return spans
