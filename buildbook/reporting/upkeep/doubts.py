"""What ``check`` doubts of the records, by what it is about: for the owner's pages of it."""

from collections.abc import Iterable, Mapping

from buildbook.basis.place import Place
from buildbook.records.entries import Capacity, Charge, Flight, Inspection, Plain, StateChange
from buildbook.report.state import Hangar
from buildbook.report.upkeep.flown import RecordDoubt
from buildbook.reporting.whole import Whole
from buildbook.upkeep.warnings.problems import warnings_of


def doubts_about(whole: Whole, name: str) -> tuple[RecordDoubt, ...]:
    """Those of one aircraft or item."""
    return whole.doubts.get(name, ())


def record_doubts(whole: Whole) -> Mapping[str, tuple[RecordDoubt, ...]]:
    """By aircraft and by tag, by place: of an item those at an entry or a line that names it.

    As of ``check`` but for what was open while it was flown, which logbooks mark.
    """
    hangar = whole.hangar
    told = [one for one in hangar.problems if one.severity == "warning"]
    told += warnings_of(hangar, whole.work, gathered=whole.gathered, flown=False)
    at = _named_at(hangar)
    found: dict[str, dict[RecordDoubt, None]] = {}
    for one in sorted(told, key=lambda one: (one.place.file, one.place.line)):
        doubt = RecordDoubt(reason=one.reason, hint=one.hint, place=one.place)
        for name in (one.about, *at.get(one.place, ())):
            if name is not None:
                found.setdefault(name, {})[doubt] = None
    return {name: tuple(doubts) for name, doubts in found.items()}


def _named_at(hangar: Hangar) -> Mapping[Place, set[str]]:
    """The items that are written of at each line."""
    found: dict[Place, set[str]] = {}
    for tag, item in hangar.items.items():
        found.setdefault(item.item.place(), set()).add(tag)
    for log in (hangar.store_log, *(one.log for one in hangar.aircraft.values())):
        for entry in (line.stands for line in log if line.stands is not None):
            for tag in _tags(entry):
                for line in (entry.line, *entry.lines.values()):
                    found.setdefault(Place(entry.file, line), set()).add(tag)
                for row in entry.rows if isinstance(entry, Flight) else ():
                    if tag in row.packs:
                        found.setdefault(Place(entry.file, row.line), set()).add(tag)
    return found


def _tags(entry: Plain) -> Iterable[str]:
    match entry:
        case Charge():
            return entry.packs
        case Capacity():
            return (entry.pack,)
        case Inspection():
            return entry.tags
        case StateChange():
            return entry.states
        case Flight() if len(entry.rows) == 1:
            return entry.rows[0].packs
        case Flight():
            return ()
        case _:
            return ()
