"""Which file an entry goes into: the logbook of the aircraft, or the store file of the part.

A part that sits on an aircraft is written of in its logbook, unless it has a store file already.
"""

import re
from collections import Counter
from collections.abc import Iterator, Mapping

from buildbook.basis.days import parse_day
from buildbook.basis.notation import NotationError
from buildbook.hangar.fold import fold
from buildbook.records.entries import (
    AnyEntry,
    Capacity,
    Charge,
    Correction,
    Inspection,
    Note,
    StateChange,
)
from buildbook.records.ledger import Ledger

_ON = re.compile(rb"^ *-? *on: *[\"']?([0-9-]{10})", re.MULTILINE)


def log_of_aircraft(content: Mapping[str, bytes], slug: str, on: str) -> str:
    """The file of its log: of several the last one that begins on that day or earlier."""
    home = f"aircraft/{slug}"
    single = f"{home}/logbook.yaml"
    paths = [path for path in sorted(content) if path.startswith(f"{home}/logbook/")]
    if single in content:
        paths.insert(0, single)
    if not paths:
        return single
    day = parse_day(on)[0].isoformat()
    begun = [path for path in paths if (first := _first_day(content[path])) and first <= day]
    return begun[-1] if begun else paths[0]


def _first_day(data: bytes) -> str | None:
    days = [found.decode() for found in _ON.findall(data)]
    return min((day for day in days if _is_day(day)), default=None)


def _is_day(text: str) -> bool:
    try:
        parse_day(text)
    except NotationError:
        return False
    return True


def log_of_item(ledger: Ledger, tag: str) -> str:
    """The file in which most is written of the item's charges, capacities and looks.

    Where nothing is: a file of its own in stores/.
    """
    named: Counter[str] = Counter()
    alone: Counter[str] = Counter()
    for entry in ledger.entries:
        tags = tuple(_tags(entry))
        if tag in tags:
            named[entry.file] += isinstance(entry, Charge | Capacity)
            alone[entry.file] += len(tags) == 1
    stores = [path for path in named if path.startswith("stores/")]
    found = [path for path in stores if named[path] or alone[path]] or [
        path for path in named if named[path]
    ]
    if found:
        return max(found, key=lambda path: (named[path], alone[path], path))
    stem = re.sub(r"[^a-z0-9]+", "-", tag.lower()).strip("-") or "shelf"
    return f"stores/{stem}.yaml"


def aircraft_under(part: Ledger, tag: str, on: str) -> str | None:
    """The aircraft on which the item sits at the end of a day; None: on none.

    part: of the hangar, what is connected with the item.
    """
    item = fold(part, parse_day(on)[0]).items.get(tag)
    return None if item is None else item.aircraft


def _tags(entry: AnyEntry) -> Iterator[str]:
    said = entry.becomes if isinstance(entry, Correction) else entry
    if isinstance(said, Charge):
        yield from said.packs
    elif isinstance(said, Capacity):
        yield said.pack
    elif isinstance(said, StateChange):
        yield from said.states
    elif isinstance(said, Inspection):
        yield from said.tags
    elif isinstance(said, Note) and said.item is not None:
        yield said.item
