"""Which entries are there already: a table that is brought in a second time adds nothing."""

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Any

import msgspec

from buildbook.records.entries import AnyEntry, Charge, Flight

_WHERE = ("file", "line", "lines", "index", "id", "log")
_REMARKS = ("note", "photos", "by", "checked_by", "entered", "public", "sure")


def not_there(new: Iterable[tuple[int, AnyEntry]], old: Iterable[AnyEntry]) -> list[int]:
    """The numbers of the new entries that the old ones don't have, each counted as often as it is.

    A flight is known by its aircraft, day, length and packs, a charge by its packs, day and
    amount, all else by what it says, remarks apart: what was added to an entry since, or
    corrected by one of its own, does not make it another.
    """
    there = Counter(mark for entry in old for mark in _marks(entry))
    missing = []
    for number, entry in new:
        marks = list(_marks(entry))
        if all(there[mark] > 0 for mark in marks):
            there.subtract(marks)
        else:
            missing.append(number)
    return missing


def _marks(entry: AnyEntry) -> Iterator[Any]:
    if isinstance(entry, Flight):
        for row in entry.rows:
            yield "flight", entry.log, entry.on, round(row.duration_s), row.packs
    elif isinstance(entry, Charge):
        amount = None if entry.put_in_ah is None else round(entry.put_in_ah, 3)
        yield "charge", entry.packs, entry.on, amount
    else:
        whole = msgspec.to_builtins(entry)
        said = {key: whole[key] for key in whole if key not in (*_WHERE, *_REMARKS)}
        yield entry.log, msgspec.json.encode(said, order="deterministic")
