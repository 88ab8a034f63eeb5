"""Words of an entry that tell of a swollen pack.

No word sets a pack aside; but one that is said to be swollen is to be looked at, whether its entry
passed a look, tells of a flight or is a remark.
"""

from collections.abc import Iterator

from buildbook.basis.notation import quoted
from buildbook.basis.problems import SURE, either
from buildbook.hangar.builders import ItemBuilder
from buildbook.hangar.folding import Fold
from buildbook.records.entries import Check, Defect, Flight, Incident, Inspection, Note, Plain
from buildbook.records.entries.entry import tags_named
from buildbook.records.entries.kinds import items_told_of
from buildbook.records.readings import speaks_of_a_pack, swelling_told
from buildbook.report.packs.pack_history import Told


def hear_words(fold: Fold, entry: Plain) -> None:
    """Keep with each pack what an entry tells of it; doubt one that does not say of which."""
    silent = type(entry) not in _TELLING or (isinstance(entry, Flight) and not entry.handling)
    if silent and not entry.note:
        return  # as most do
    for words in words_of(entry):
        said = swelling_told(words)
        if said is None:
            continue
        packs = _packs(fold, entry, words)
        for pack in packs:
            if pack.state.state == "serviceable":
                pack.told.append(Told(**fold.at.stamp(), words=said))
        if not packs and not fold.sure and speaks_of_a_pack(words):
            fold.objections.object(
                f"{quoted(said)} says that a pack is swollen, and not which",
                fold.at.place,
                severity="warning",
                hint=either(
                    "write a defect with its tag as item", "enter defect and the tag of the pack"
                )
                + f"; {SURE} if none is",
                about=entry.aircraft,
            )


_TELLING = (Flight, Check, Inspection, Note)
"""Kinds of entries that say something beside their note."""


def words_of(entry: Plain) -> Iterator[str]:
    """What was remarked, found and read; a defect and an incident have rows of their own."""
    if isinstance(entry, Defect | Incident):
        return
    if entry.note:
        yield entry.note
    match entry:
        case Note():
            yield entry.words
        case Flight():
            yield from [entry.handling] if entry.handling else []
        case Inspection():
            yield from [entry.findings] if entry.findings else []
            yield from entry.readings.values()
        case Check():
            yield from entry.readings.values()
        case _:
            pass


def _packs(fold: Fold, entry: Plain, words: str) -> list[ItemBuilder]:
    """The packs that the words name, else those of the entry; of a flight where they say pack."""
    known = {tag: item for tag, item in fold.items.items() if item.is_pack}
    named = tags_named(words, known)
    own = items_told_of(entry)
    if isinstance(entry, Flight) and speaks_of_a_pack(words):
        own = tuple(dict.fromkeys(tag for row in entry.rows for tag in row.packs))
    return [known[tag] for tag in named or own if tag in known]
