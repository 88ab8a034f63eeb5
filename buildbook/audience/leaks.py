"""What should not stand in a text that the public will read, whoever wrote it there.

Nothing is redacted in silence: a leak is a problem with its place, told without the value.
"""

import re
from collections.abc import Iterator, Mapping
from typing import Any

import msgspec

from buildbook.audience.allowed import PRIVATE_WORDS
from buildbook.audience.sharing import Sharing
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.records.ledger import Ledger

_SHORTEST = 4  # a private value of fewer characters would be found in ordinary words
_COORDINATES = re.compile(r"(?<![\d.])-?\d{1,3}\.\d{3,}\s*°?\s*[NS]?[,;\s]\s*-?\d{1,3}\.\d{3,}")
_MAP_LINK = re.compile(r"\b(?:geo:-?\d|https?://\S*(?:[@=]-?\d{1,2}\.\d{3,},|/maps?[/?]))", re.I)
_OPERATOR = re.compile(r"\b[A-Z]{3}[0-9a-z]{13}\b")
_MAIL = re.compile(r"(?<![\w.+-])[\w.+-]+@[\w-]+(?:\.[\w-]+)+")
_PATTERNS = (
    (_COORDINATES, "looks like coordinates in a text that would be public"),
    (_MAP_LINK, "a link to a map in a text that would be public"),
    (_OPERATOR, "looks like an operator number in a text that would be public"),
    (_MAIL, "looks like an e-mail address in a text that would be public"),
)


class LeakWatch:
    """Collects problems while a projection runs; give ``see`` to it as its witness."""

    def __init__(self, ledger: Ledger, sharing: Sharing) -> None:
        self._private = dict(_private_words(ledger, sharing))
        self._search = (
            re.compile(
                "|".join(
                    rf"(?<!\w){re.escape(word)}(?!\w)"
                    for word in sorted(self._private, key=lambda word: (-len(word), word))
                )
            )
            if self._private
            else None
        )
        self._seen: set[str] = set()
        self.problems: list[Problem] = []

    def see(self, text: str, near: Place) -> None:
        """Look at one text; the same text is looked at once."""
        if text in self._seen or len(text) < _SHORTEST:
            return
        self._seen.add(text)
        for pattern, reason in _PATTERNS:
            for found in pattern.finditer(text):
                self._tell(reason, _line_of(found, near))
        for found in self._search.finditer(text) if self._search else ():
            said = self._private[found.group()]
            self._tell(f"{said} stands in a text that would be public", _line_of(found, near))

    def _tell(self, reason: str, near: Place) -> None:
        problem = Problem(reason, near, hint="take it out of the text, or render for the owner")
        if problem not in self.problems:
            self.problems.append(problem)


def _line_of(found: re.Match[str], near: Place) -> Place:
    """The line of a build story on which it stands; elsewhere the place of the whole text."""
    if not near.file.endswith(".md"):
        return near
    return Place(near.file, near.line + found.string.count("\n", 0, found.start()))


def _private_words(ledger: Ledger, sharing: Sharing) -> Iterator[tuple[str, str]]:
    """Each private value of the hangar and what it is."""
    records: list[msgspec.Struct] = [
        ledger.keeper,
        *ledger.items.values(),
        *ledger.aircraft.values(),
    ]
    for record in records:
        for (kind, field), said in PRIVATE_WORDS.items():
            value: Any = getattr(record, field) if isinstance(record, kind) else None
            if isinstance(value, str) and len(value) >= _SHORTEST:
                yield value, said
    hidden: Mapping[str, str] = {
        who.name: "the name of a person"
        for alias, who in ledger.keeper.people.items()
        if alias not in sharing.people
    }
    for name, said in hidden.items():
        if len(name) >= _SHORTEST:
            yield name, said
