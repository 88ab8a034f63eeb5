"""What should not stand in a text that the public will read, whoever wrote it there.

Nothing is redacted in silence: a leak is a problem with its place, told without the value. The one
exception are settings and readings whose name says that they are secret; see ``personal``.
"""

import html
import re
import unicodedata
from bisect import bisect_right
from collections.abc import Iterator
from urllib.parse import unquote

import msgspec

from buildbook.audience.leaks import personal, places
from buildbook.audience.leaks.pattern import Leak
from buildbook.audience.leaks.record_words import RecordWords, Written
from buildbook.audience.paragraphs import paragraphs
from buildbook.audience.sharing import Sharing
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.records.ledger import Ledger

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


LEAKS: tuple[Leak, ...] = (*places.PLACES, *personal.PERSONAL)
"""All that a text may give away, in the order in which it is told."""

PATTERNS = (*places.PATTERNS, *personal.PATTERNS)
"""Every regular expression that runs over texts: a test counts how far each may go back."""


_SHORTEST = 2
_DIGIT = re.compile(r"\d")
_BUILT_IN = "built-in/"
OUT_OF_A_RECORD = "take it out, or look at the whole record and write 'public: ok' in it"
OUT_OF_A_STORY = "take it out, or write '@ public: ok' on a line before the paragraph"

Found = tuple[tuple[str, int], ...]
"""Reasons, each with the line within the text, from 0."""


class LeakWatch:
    """Collects problems while a projection runs; give ``see`` to it as its witness."""

    def __init__(self, ledger: Ledger, sharing: Sharing) -> None:
        self._words = RecordWords(ledger, sharing)
        self._leaks = tuple(each for each in LEAKS if not (each.dated and sharing.exact_days))
        self._written = Written(ledger)
        self._known: dict[str, Found] = {}
        self._problems: dict[Problem, None] = {}

    @property
    def problems(self) -> tuple[Problem, ...]:
        """What was found so far, each once."""
        return tuple(self._problems)

    def see(self, text: str, near: Place) -> None:
        """Look at one text; the same text is looked at once and told wherever it stands."""
        if len(text) < _SHORTEST or near.file.startswith(_BUILT_IN):
            return
        if near.file.endswith(".md"):
            self._see_story(text, near)
            return
        if self._written.may_pass(text):
            return
        for reason, _ in self.given_away_by(text):
            for place in self._written.places(text, near):
                self._tell(reason, place, OUT_OF_A_RECORD)

    def given_away_by(self, text: str) -> Found:
        """Reasons, each once; the same text stands on many pages and is looked at once."""
        found = self._known.get(text)
        if found is None:
            found = self._known[text] = tuple(dict.fromkeys(self._look(text)))
        return found

    def _see_story(self, text: str, near: Place) -> None:
        for paragraph in paragraphs(text):
            if not paragraph.passed:
                for reason, line in self.given_away_by(paragraph.text):
                    place = Place(near.file, near.line + paragraph.line - 1 + line)
                    self._tell(reason, place, OUT_OF_A_STORY)

    def _look(self, text: str) -> list[tuple[str, int]]:
        found = []
        for flat in looks_of(text):
            digits = _DIGIT.search(flat.text) is not None
            for leak in self._leaks:
                if digits or leak.needs == "anything":
                    for offset in leak.find(flat.text):
                        found.append((leak.reason, flat.line_at(offset)))
            for what, offset in self._words.find(flat.text):
                found.append((f"{what} stands", flat.line_at(offset)))
        return found

    def _tell(self, reason: str, place: Place, hint: str) -> None:
        self._problems[Problem(f"{reason} in a text that would be public", place, hint=hint)] = None
