"""The paragraphs of a build story, each with its line, and those that the keeper lets pass.

``@ public: ok`` on a line of its own lets the paragraph after it stand in a public render.
"""

import re
from collections.abc import Iterator

import msgspec

PASS = "@ public: ok"
_PASS = re.compile(r"@[ \t]{1,20}public[ \t]{0,20}:[ \t]{0,20}ok", re.IGNORECASE)
_PHOTO = re.compile(
    r" {0,3}@[ \t]{1,20}photo[ \t]{1,20}(?:\"[^\"]{0,400}\"|'[^']{0,400}'|\S{1,400})"
)


class Paragraph(msgspec.Struct, frozen=True):
    """Lines of a story up to a blank one. line: of the first, from 1."""

    text: str
    line: int
    passed: bool = False


def unmarked(text: str) -> str:
    """The story with blank lines where the keeper only says that the next paragraph may pass."""
    return "\n".join("" if _marks(line) else line for line in text.splitlines())


def paragraphs(text: str) -> Iterator[Paragraph]:
    """All paragraphs as a reader of the page sees them: of a photo its words, not its file."""
    kept: list[str] = []
    first, passed = 1, False
    for number, line in enumerate((*text.splitlines(), ""), 1):
        marks = _marks(line)
        if kept and (marks or not line.strip()):
            yield Paragraph("\n".join(kept), first, passed)
            kept, passed = [], False
        if marks:
            passed = True
        elif line.strip():
            first = first if kept else number
            kept.append(_PHOTO.sub("", line, count=1) if _PHOTO.match(line) else line)


def _marks(line: str) -> bool:
    return len(line) < 200 and _PASS.fullmatch(line.strip()) is not None
