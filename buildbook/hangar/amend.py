"""Later words on earlier entries: what each entry says on a day.

A correction or void changes what the original did on its own day. Words dated after the day are
left out, like every later entry. Of several words the last one written wins; a void that names a
correction (or another void) takes only that one back. An original dated after the day is out,
whatever is said of it.
"""

import datetime
from collections.abc import Iterable, Mapping

import msgspec

from buildbook.records.entries import AnyEntry, Correction, Plain, Void

Word = Correction | Void


class Amended(msgspec.Struct, frozen=True):
    """An entry of the log and what it says on the day; ``stands`` as in ``LogLine``."""

    entry: AnyEntry
    stands: Plain | None
    words_on: tuple[Word, ...] = ()
    corrected_later: bool = False

    @property
    def on(self) -> datetime.date:
        """The day on which it counts: a correction may have moved it."""
        return self.entry.on if self.stands is None else self.stands.on


def amended(entries: Iterable[AnyEntry], as_of: datetime.date) -> tuple[list[Amended], int]:
    """The entries up to the day, each with what it says then; and how many are left out."""
    held: list[AnyEntry] = []
    later: list[AnyEntry] = []
    words: list[Word] = []
    for entry in entries:
        (held if entry.on <= as_of else later).append(entry)
        if isinstance(entry, Correction | Void):
            words.append(entry)
    if not words:
        return [Amended(entry, _plain(entry)) for entry in held], len(later)
    by_root = _by_root(words)
    found = [_amend(entry, by_root.get(entry.uid, ()), as_of) for entry in held]
    inside = [line for line in found if line.on <= as_of]
    return inside, len(later) + len(found) - len(inside)


def _plain(entry: AnyEntry) -> Plain | None:
    return None if isinstance(entry, Correction | Void) else entry


def _by_root(words: Iterable[Word]) -> Mapping[str, tuple[Word, ...]]:
    """The words on each original, as written; a word on a word belongs to its original."""
    ordered = sorted(words, key=lambda word: (word.on, word.log, word.index))
    targets = {word.uid: word.original for word in ordered}
    gathered: dict[str, list[Word]] = {}
    for word in ordered:
        root, steps = word.original, 0
        while root in targets and steps < len(targets):
            root, steps = targets[root], steps + 1
        gathered.setdefault(root, []).append(word)
    return {root: tuple(found) for root, found in gathered.items()}


def _amend(entry: AnyEntry, words: tuple[Word, ...], as_of: datetime.date) -> Amended:
    said = tuple(word for word in words if word.on <= as_of)
    stands = _plain(entry)
    if stands is not None:
        stands = _last_word(stands, entry.uid, said)
    return Amended(entry, stands, said, len(said) < len(words))


def _last_word(original: Plain, uid: str, said: tuple[Word, ...]) -> Plain | None:
    """What the original says after these words, the last of which wins."""
    taken_back: set[str] = set()
    for word in reversed(said):
        if word.uid in taken_back:
            continue
        if isinstance(word, Correction):
            return word.becomes
        if word.original == uid:
            return None
        taken_back.add(word.original)
    return original
