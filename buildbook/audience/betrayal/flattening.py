"""One look of a text for all patterns, whatever typography, escapes or line breaks it has.

Everything here takes time in proportion to the length of the text.
"""

import html
import re
import unicodedata
from bisect import bisect_right
from collections.abc import Iterator
from urllib.parse import unquote

import msgspec

_ALIKE = str.maketrans(
    {
        **dict.fromkeys("‐‑‒–—−", "-"),
        **dict.fromkeys("’‘′´", "'"),
        **dict.fromkeys("”“″„", '"'),
        "º": "°",
        "˚": "°",
    }
)
_TAG = re.compile(r"<[^<>]{0,500}>")
_ESCAPED = re.compile(r"\\([!-/:-@\[-`{-~])")
_LINK = re.compile(r"\[([^\[\]]{0,200})\](?:\([^()]{0,500}\)|\[[^\[\]]{0,100}\])")
_MARKS = re.compile(r"[*_~`]{1,3}|'{1,3}(?=\w)")


class Flat(msgspec.Struct, frozen=True):
    """The text on one line; ``starts`` are the offsets at which each written line begins."""

    text: str
    starts: tuple[int, ...]

    def line_at(self, offset: int) -> int:
        """The written line of an offset, from 0."""
        return max(0, bisect_right(self.starts, offset) - 1)


def looks_of(text: str) -> Iterator[Flat]:
    """The text as written, and as a reader of the page sees it, where its marks make a difference.

    Lines are joined by a blank, runs of blanks are one, letters and signs that look alike are one,
    references (``&#64;``, ``%40``) are what they stand for.
    """
    lines = [_flattened(line) for line in text.splitlines()]
    yield _joined(lines)
    bare = [_without_marks(line) for line in lines]
    if bare != lines:
        yield _joined(bare)


def _flattened(line: str) -> str:
    if "&" in line:
        line = html.unescape(line)
    if "%" in line:
        line = unquote(line, errors="replace")
    if not line.isascii():  # after the references, which may stand for any sign
        line = unicodedata.normalize("NFKC", line.translate(_ALIKE)).translate(_ALIKE)
        line = "".join(sign for sign in line if not _is_unseen(sign))
    return " ".join(line.split())


def _is_unseen(sign: str) -> bool:
    """Whether a sign takes no room: it joins, parts, or chooses the look of its neighbour."""
    return unicodedata.category(sign) == "Cf" or "\ufe00" <= sign <= "\ufe0f" or sign == "\u034f"


def _without_marks(line: str) -> str:
    line = _LINK.sub(r"\1", _TAG.sub("", line))
    return " ".join(_MARKS.sub("", _ESCAPED.sub(r"\1", line)).split())


def _joined(lines: list[str]) -> Flat:
    starts, at = [], 0
    for line in lines:
        starts.append(at)
        at += len(line) + 1
    return Flat(" ".join(lines), tuple(starts))
