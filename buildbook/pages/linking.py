"""Text with the tags of items in it becomes pieces, so that a page can link them."""

import re
from collections.abc import Iterable
from typing import NamedTuple

from buildbook.report.reports import Reports


class Piece(NamedTuple):
    """A stretch of text. tag: the item that it names, where it names one."""

    text: str
    tag: str | None = None


class Linker:
    """Finds the tags of a hangar in a text; one for a page."""

    def __init__(self, reports: Reports) -> None:
        tags = sorted(reports.hangar.items, key=lambda tag: (-len(tag), tag))
        alternatives = "|".join(re.escape(tag) for tag in tags)
        self._tags = re.compile(rf"(?<![\w-])({alternatives})(?![\w-])") if tags else None

    def pieces(self, text: str) -> tuple[Piece, ...]:
        """The text cut at the tags."""
        if self._tags is None or not text:
            return (Piece(text),) if text else ()
        cut = self._tags.split(text)
        found = (Piece(part, part if at % 2 else None) for at, part in enumerate(cut))
        return tuple(piece for piece in found if piece.text)


def plain(pieces: Iterable[Piece]) -> str:
    """The text again."""
    return "".join(piece.text for piece in pieces)
