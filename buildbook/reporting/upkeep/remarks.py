"""What was remarked on the last days of the log: nobody but the keeper can judge it.

A pack that is puffed in a remark only, a servo that buzzes: no rule reads prose, so the work list
ends with the words themselves. The last remark about a pack stays until that pack is looked at, or
something is written of it again.
"""

import datetime
from collections.abc import Iterator, Mapping

from buildbook.records.entries import (
    Capacity,
    Charge,
    Defect,
    Flight,
    Incident,
    Inspection,
    Note,
    Plain,
)
from buildbook.records.entries.entry import tags_named
from buildbook.records.parts import GONE
from buildbook.records.row_names import PACK_LOOK
from buildbook.report.history import LogLine
from buildbook.report.reports import Reports
from buildbook.report.state import ItemNow
from buildbook.report.upkeep.flown import Remarked
from buildbook.reporting.whole import Whole
from buildbook.upkeep.counted.completions import tasks_of_item

OF_LATE_DAYS = 14
"""So far back from the last entry. Common practice, no source."""

UNANSWERED_DAYS = 180
"""So far back for the last remark about a pack that nobody looked at since. Likewise."""


def remarks(whole: Whole) -> tuple[Remarked, ...]:
    """The last about each pack that nobody looked at since, then all that is new; newest first.

    Of aircraft that fly and of the store; retired and sold ones are left out.
    """
    hangar = whole.hangar
    logs = [one.log for one in hangar.aircraft.values() if one.status in ("flying", "stored")]
    lines = [line for log in (*logs, hangar.store_log) for line in log]
    last = max((line.entry.on for line in lines), default=None)
    if last is None:
        return ()
    late = [line for line in lines if (last - line.entry.on).days <= OF_LATE_DAYS]
    late.sort(key=lambda line: line.seq, reverse=True)
    new = [found for line in late for found in _of(line)]
    kept = tuple(dict.fromkeys(whole.reports.once(_unanswered).values()))
    return (*kept, *(found for found in new if found not in kept))


def unanswered(whole: Whole, tag: str) -> Remarked | None:
    """The last remark about a pack that nobody looked at since; None of any other item."""
    return whole.reports.once(_unanswered).get(tag)


def _unanswered(reports: Reports) -> dict[str, Remarked]:
    """By pack, newest first; it walks the logs, and each page of a pack asks."""
    hangar = reports.hangar
    packs = {
        tag: item
        for tag, item in hangar.items.items()
        if item.is_pack and item.state.state not in GONE
    }
    logs = (hangar.store_log, *(one.log for one in hangar.aircraft.values()))
    last = max((line.entry.on for log in logs for line in log), default=None)
    if not packs or last is None:
        return {}
    earliest = last - datetime.timedelta(days=UNANSWERED_DAYS)
    late = [line for log in logs for line in log if line.entry.on >= earliest]
    late.sort(key=lambda line: line.seq, reverse=True)
    found: dict[str, Remarked] = {}
    said: set[str] = set()
    for line in late:
        for tag in () if line.stands is None else _named(line.stands, packs):
            told = next(
                (one for one in _of(line) if tag in one.tags or tags_named(one.words, (tag,))),
                None,
            )
            if told is not None and tag not in said and not _looked_at(packs[tag], line.seq):
                found[tag] = told
            said.add(tag)
    return found


def _named(entry: Plain, packs: Mapping[str, ItemNow]) -> tuple[str, ...]:
    """The packs that an entry with words is about, or that its words name."""
    if isinstance(entry, Defect):
        return (entry.item,) if entry.item is not None and entry.item in packs else ()
    written = _words(entry)
    own = tuple(tag for tag in _tags(entry) if tag in packs and written)
    named = tags_named(" ".join(written), [tag for tag in packs if tag not in own])
    # Of what was looked at or measured it says what was found then.
    return named if isinstance(entry, Inspection | Capacity) else (*own, *named)


def _looked_at(pack: ItemNow, seq: int) -> bool:
    return any(done.seq > seq for done in tasks_of_item(pack).get(PACK_LOOK, ()))


def remarks_on(whole: Whole, tag: str) -> tuple[Remarked, ...]:
    """Notes that name an item, oldest first, from all logs."""
    hangar = whole.hangar
    logs = (hangar.store_log, *(one.log for one in hangar.aircraft.values()))
    found = [
        line
        for log in logs
        for line in log
        if isinstance(line.stands, Note) and line.stands.item == tag
    ]
    found.sort(key=lambda line: line.seq)
    return tuple(each for line in found for each in _of(line))


def _of(line: LogLine) -> Iterator[Remarked]:
    entry = line.stands
    if entry is None or isinstance(entry, Defect | Incident):
        return  # a row, or the log, has these in full
    for words in _words(entry):
        yield Remarked(
            aircraft=entry.aircraft,
            tags=_tags(entry),
            on=entry.on,
            kind=str(type(entry).__struct_config__.tag),
            entry=entry.uid,
            words=" ".join(words.split()),
            place=entry.place(),
        )


def _words(entry: Plain) -> list[str]:
    told = [entry.words if isinstance(entry, Note) else None, entry.note]
    if isinstance(entry, Flight):
        told.append(entry.handling)
    if isinstance(entry, Inspection) and entry.result == "pass":
        told.append(entry.findings)
    return [words for words in told if words]


def _tags(entry: Plain) -> tuple[str, ...]:
    match entry:
        case Charge():
            return entry.packs
        case Capacity():
            return (entry.pack,)
        case Inspection():
            return entry.tags
        case Note():
            return (entry.item,) if entry.item else ()
        case _:
            return ()
