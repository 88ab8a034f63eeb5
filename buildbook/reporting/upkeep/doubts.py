"""What ``check`` doubts of the records, by what it is about: for the owner's pages of it."""

from collections.abc import Iterable, Mapping

from buildbook.basis.place import Place
from buildbook.records.entries import Flight, Plain, StateChange
from buildbook.records.entries.kinds import items_told_of
from buildbook.report.state import Hangar
from buildbook.report.upkeep.flown import RecordDoubt
from buildbook.report.upkeep.work import WorkList
from buildbook.upkeep.hangar_context import HangarContext
from buildbook.upkeep.warnings.problems import warnings_of


def record_doubts(
    hangar: Hangar, work: WorkList, gathered: HangarContext
) -> Mapping[str, tuple[RecordDoubt, ...]]:
    """By aircraft and by tag, by place: of an item those at an entry or a line that names it.

    As of ``check`` but for what was open while it was flown, which logbooks mark.
    """
    told = [one for one in hangar.problems if one.severity == "warning"]
    told += warnings_of(hangar, work, gathered=gathered, flown=False)
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
        case StateChange():
            return entry.states
        case Flight():
            return entry.rows[0].packs if len(entry.rows) == 1 else ()
        case _:
            return items_told_of(entry)
