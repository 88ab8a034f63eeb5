"""What should not stand in a text that the public will read, whoever wrote it there.

Nothing is redacted in silence: a leak is a problem with its place, told without the value. The one
exception are settings and readings whose name says that they are secret; see ``betrayal.secrets``.
"""

import re

from buildbook.audience.betrayal.flattening import looks_of
from buildbook.audience.betrayal.record_words import RecordWords
from buildbook.audience.betrayal.registry import BETRAYALS
from buildbook.audience.paragraphs import paragraphs
from buildbook.audience.sharing import Sharing
from buildbook.audience.written import Written
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.records.ledger import Ledger

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
        self._betrayals = tuple(
            each for each in BETRAYALS if not (each.dated and sharing.exact_days)
        )
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
        for reason, _ in self.betrayed_by(text):
            for place in self._written.places(text, near):
                self._tell(reason, place, OUT_OF_A_RECORD)

    def betrayed_by(self, text: str) -> Found:
        """Reasons, each once; the same text stands on many pages and is looked at once."""
        found = self._known.get(text)
        if found is None:
            found = self._known[text] = tuple(dict.fromkeys(self._look(text)))
        return found

    def _see_story(self, text: str, near: Place) -> None:
        for paragraph in paragraphs(text):
            if not paragraph.passed:
                for reason, line in self.betrayed_by(paragraph.text):
                    place = Place(near.file, near.line + paragraph.line - 1 + line)
                    self._tell(reason, place, OUT_OF_A_STORY)

    def _look(self, text: str) -> list[tuple[str, int]]:
        found = []
        for flat in looks_of(text):
            digits = _DIGIT.search(flat.text) is not None
            for betrayal in self._betrayals:
                if digits or betrayal.needs == "anything":
                    for offset in betrayal.find(flat.text):
                        found.append((betrayal.reason, flat.line_at(offset)))
            for what, offset in self._words.find(flat.text):
                found.append((f"{what} stands", flat.line_at(offset)))
        return found

    def _tell(self, reason: str, place: Place, hint: str) -> None:
        self._problems[Problem(f"{reason} in a text that would be public", place, hint=hint)] = None
