"""Looks that failed: open until the same look passes or what was found is cleared.

A failed look grounds, even where being overdue would not, unless its entry says how mild it is.
One that no row of the programme comes round for has a row of its own.
"""

from collections.abc import Iterable, Iterator, Mapping
from operator import attrgetter

import msgspec

from buildbook.basis.place import Place
from buildbook.records.programmes import TaskRule
from buildbook.report.history import Completion
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.programme import Resolved
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.counted.completions import failed_as

_RESULT = attrgetter("result")
_SEVERITY = attrgetter("severity")


def failed_looks(
    hangar: Hangar, aircraft: AircraftNow, programme: Resolved | None, rows: Iterable[Row]
) -> Iterator[Row]:
    """A row for each failed look of an aircraft, and of what it carries, that none stands for."""
    told = {(row.name, row.tag) for row in rows if row.state == "failed"}
    names = {name for name, _ in told}
    for look in _last_failed(look for look in aircraft.inspections if not look.tags):
        if look.name not in names:
            yield _row(aircraft, programme, look, None, None)
    for here in aircraft.items():
        item = hangar.items.get(here.tag)
        if item is None:
            continue
        for look in _last_failed(item.inspections):
            if look.tags and (look.name, item.tag) not in told:
                yield _row(aircraft, programme, look, item.tag, here.station)


def as_meant(rows: Iterable[Row], looked: Iterable[AircraftNow | ItemNow]) -> list[Row]:
    """The rows, those of failed looks as mild as their entries say."""
    mild: dict[tuple[str, str], str | None] = {}
    for one in looked:
        dones = (*one.inspections, *(one.checks if isinstance(one, AircraftNow) else ()))
        if any(map(_SEVERITY, dones)):
            mild |= {
                (done.uid, done.name): done.severity
                for done in dones
                if done.severity is not None and done.result == "fail"
            }
    return [_milder(row, mild) for row in rows] if mild else list(rows)


def _milder(row: Row, mild: Mapping[tuple[str, str], str | None]) -> Row:
    because = row.because
    if row.state != "failed" or because is None or because.why != "failed":
        return row
    severity = mild.get((because.entry or "", row.name))
    if severity is None:
        return row
    rank = ranks.DUE if severity == "defer" else ranks.NOTED
    return msgspec.structs.replace(row, grounds=False, rank=rank)


def _last_failed(looks: Iterable[Completion]) -> list[Completion]:
    """Of each name the last look, where it failed and what it found still stands."""
    looks = list(looks)
    if "fail" not in map(_RESULT, looks):
        return []
    last = {look.name: look for look in looks if look.cleared_on is None}
    return [look for look in last.values() if look.result == "fail"]


def _row(
    aircraft: AircraftNow,
    programme: Resolved | None,
    look: Completion,
    tag: str | None,
    station: str | None,
) -> Row:
    return Row(
        aircraft=aircraft.slug,
        kind="task",
        name=look.name,
        tag=tag,
        station=station,
        state="failed",
        because=Because(
            why="failed",
            entry=look.uid,
            on=look.on,
            place=look.place,
            tag=tag,
            station=station,
            found=failed_as(look),
        ),
        place=look.place,
        grounds=True,
        by=look.by,
        checked_by=look.checked_by,
        rule=_rule(programme, look.name) or _again(look.name, look.place),
        rank=ranks.FAILED_CHECK,
    )


def _rule(programme: Resolved | None, name: str) -> TaskRule | None:
    tasks = programme.tasks if programme is not None else ()
    return next((one.rule for one in tasks if one.rule.task == name), None)


def _again(name: str, place: Place) -> TaskRule:
    return TaskRule(
        file=place.file,
        line=place.line,
        task=name,
        what="Mend what was found, then inspect it again.",
    )
