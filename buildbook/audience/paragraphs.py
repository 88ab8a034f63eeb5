"""The paragraphs of a build story, each with its line, and those that the keeper lets pass.

``@ public: ok`` on a line of its own lets the paragraph after it stand in a public render.
"""

import re
from bisect import bisect_right
from collections.abc import Iterator

import msgspec

_PASS = re.compile(r" {0,3}@[ \t]{1,20}public[ \t]{0,20}:[ \t]{0,20}ok[ \t]{0,100}", re.IGNORECASE)
_FENCE = re.compile(r"^ {0,3}(`{3,}|~{3,})")
_PHOTO = re.compile(
    r" {0,3}@[ \t]{1,20}photo[ \t]{1,20}(?:\"[^\"]{0,400}\"|'[^']{0,400}'|\S{1,400})"
)


_PICTURE_FILE = re.compile(r"(!\[[^\[\]\n]{0,400}\]\()(?:<[^<>\n]{1,400}>|[^\s()<>]{1,400})")


class Paragraph(msgspec.Struct, frozen=True):
    """Lines of a story up to a blank one. line: of the first, from 1."""

    text: str
    line: int
    passed: bool = False


def unmarked(text: str) -> str:
    """The story with blank lines where the keeper only says that the next paragraph may pass."""
    lines = text.splitlines()
    marks = _marks(lines)
    return "\n".join("" if at in marks else line for at, line in enumerate(lines))


def paragraphs(text: str) -> Iterator[Paragraph]:
    """All paragraphs as a reader of the page sees them: of a photo its words, not its file."""
    kept: list[str] = []
    first, passed = 1, False
    lines = [*text.splitlines(), ""]
    all_marks = _marks(lines)
    for number, line in enumerate(lines, 1):
        marks = number - 1 in all_marks
        if kept and (marks or not line.strip()):
            yield Paragraph("\n".join(kept), first, passed)
            kept, passed = [], False
        if marks:
            passed = True
        elif line.strip():
            first = first if kept else number
            bare = _PHOTO.sub("", line, count=1) if _PHOTO.match(line) else line
            kept.append(_PICTURE_FILE.sub(r"\1", bare))


def _marks(lines: list[str]) -> set[int]:
    """The lines that let a paragraph pass. In code, fenced or indented, they are text."""
    found = {at for at, line in enumerate(lines) if len(line) < 200 and _PASS.fullmatch(line)}
    return found - fenced(lines) if found else found


def fenced(lines: list[str]) -> set[int]:
    """The lines of fenced code. A fence that is never closed opens none, as when it is rendered."""
    bare: dict[str, list[int]] = {}
    for at, line in enumerate(lines):
        if line.lstrip().startswith(("```", "~~~")):
            bare.setdefault(line.strip(), []).append(at)
    inside: set[int] = set()
    at = 0
    while at < len(lines):
        fence = _FENCE.match(lines[at])
        ends = bare.get(fence.group(1), []) if fence else []
        later = bisect_right(ends, at)
        end = ends[later] if later < len(ends) else at
        if end > at:
            inside.update(range(at, end + 1))
        at = end + 1
    return inside
