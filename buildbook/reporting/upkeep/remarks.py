"""What was remarked on the last days of the log: nobody but the keeper can judge it.

A pack that is puffed in a remark only, a servo that buzzes: no rule reads prose, so the work list
ends with the words themselves.
"""

from collections.abc import Iterator

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
from buildbook.report.history import LogLine
from buildbook.report.upkeep.remarks import Remarked
from buildbook.reporting.whole import Whole

OF_LATE_DAYS = 14
"""So far back from the last entry. Common practice, no source."""


def remarks(whole: Whole) -> tuple[Remarked, ...]:
    """Of aircraft that fly and of the store, newest first; retired and sold ones are left out."""
    hangar = whole.hangar
    logs = [one.log for one in hangar.aircraft.values() if one.status in ("flying", "stored")]
    lines = [line for log in (*logs, hangar.store_log) for line in log]
    last = max((line.entry.on for line in lines), default=None)
    if last is None:
        return ()
    late = [line for line in lines if (last - line.entry.on).days <= OF_LATE_DAYS]
    late.sort(key=lambda line: line.seq, reverse=True)
    return tuple(found for line in late for found in _of(line))


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
    told = [entry.words if isinstance(entry, Note) else None, entry.note]
    if isinstance(entry, Flight):
        told.append(entry.handling)
    if isinstance(entry, Inspection) and entry.result == "pass":
        told.append(entry.findings)
    for words in told:
        if words:
            yield Remarked(
                aircraft=entry.aircraft,
                tags=_tags(entry),
                on=entry.on,
                kind=str(type(entry).__struct_config__.tag),
                entry=entry.uid,
                words=" ".join(words.split()),
                place=entry.place(),
            )


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
