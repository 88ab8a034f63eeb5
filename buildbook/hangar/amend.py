"""Later words on earlier entries: what each entry says on a day.

A correction or void changes what the original did on its own day. Words dated after the day are
left out, like every later entry. Of several words the last one written wins; a void that names a
correction takes only that one back.
"""

import datetime
from collections.abc import Iterable, Mapping
from typing import cast

import msgspec

from buildbook.records.entries import AnyEntry, Correction, Plain, Void

Word = Correction | Void


class Amended(msgspec.Struct, frozen=True):
    """An entry of the log and what it says on the day; ``stands`` as in ``LogLine``."""

    entry: AnyEntry
    stands: Plain | None
    words_on: tuple[Word, ...] = ()
    corrected_later: bool = False


def amended(entries: Iterable[AnyEntry], as_of: datetime.date) -> tuple[list[Amended], int]:
    """The entries up to the day, each with what it says then; and how many are left out."""
    held: list[AnyEntry] = []
    words: list[Word] = []
    left_out = 0
    for entry in entries:
        if entry.on <= as_of:
            held.append(entry)
        else:
            left_out += 1
        if type(entry) is Correction or type(entry) is Void:
            words.append(entry)
    if not words:
        return [Amended(entry, cast(Plain, entry)) for entry in held], left_out
    by_root = _by_root(words)
    return [_amend(entry, by_root.get(entry.uid, ()), as_of) for entry in held], left_out


def _plain(entry: AnyEntry) -> Plain | None:
    return None if isinstance(entry, Word) else entry


def _by_root(words: Iterable[Word]) -> Mapping[str, list[Word]]:
    """The words on each original, as written; a void of a correction is one of them."""
    ordered = sorted(words, key=lambda word: (word.on, word.log, word.index))
    corrected = {word.uid: word.original for word in ordered if isinstance(word, Correction)}
    gathered: dict[str, list[Word]] = {}
    for word in ordered:
        root = corrected.get(word.original, word.original)
        gathered.setdefault(root, []).append(word)
    return gathered


def _amend(entry: AnyEntry, words: Iterable[Word], as_of: datetime.date) -> Amended:
    said: list[Word] = []
    corrected_later = False
    for word in words:
        if word.on <= as_of:
            said.append(word)
        else:
            corrected_later = True
    stands = _plain(entry)
    if stands is not None:
        stands = _last_word(stands, entry.uid, said)
    return Amended(entry, stands, tuple(said), corrected_later)


def _last_word(original: Plain, uid: str, said: list[Word]) -> Plain | None:
    """What the original says after these words, the last of which wins."""
    taken_back: set[str] = set()
    for word in reversed(said):
        if isinstance(word, Void):
            if word.original == uid:
                return None
            taken_back.add(word.original)
        elif word.uid not in taken_back:
            return word.becomes
    return original
