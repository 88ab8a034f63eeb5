"""Something was noticed in flight, or it got wet: it grounds until somebody looked into it.

The programme says what that is: its rows that ``noticed`` re-opens. Where it has none, a row of
its own stands until any look or check passes, or a repair is written, after the flight. Water
has a row of its own under every programme: it is dried and opened before it gets power again.
"""

from collections.abc import Iterable, Iterator, Mapping
from operator import attrgetter

import msgspec

from buildbook.basis.place import Place
from buildbook.records.programmes import TaskRule
from buildbook.records.row_names import DRYING
from buildbook.records.triggers import Trigger
from buildbook.report.history import Completion, Event
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import Noticed
from buildbook.report.upkeep.programme import Resolved
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.counted.completions import failed_as
from buildbook.upkeep.dangers.danger_rows import Ask, danger_row

LOOK_AT: Mapping[str, str] = {
    "link lost": "Propellers off. Walk the range again and test the failsafe.",
    "flutter": "Unplug the pack. Pull at each surface, hinge, horn and pushrod; feel for play.",
    "power dip": "Unplug the pack. Look at regulator, plugs and solder joints.",
    "shaking": "Unplug the pack. Look at each propeller, its balance, and every screw.",
    "wrong way": "Propellers off. Check that each surface, or the correction, goes the right way.",
}
"""What each of them asks to be looked at. Common practice, no source."""


def grounding(rows: Iterable[Row]) -> list[Row]:
    """The rows, those that something noticed in flight re-opened as grounding ones."""
    return [_grounded(row) if _by_notice(row) else row for row in rows]


def noticed_rows(aircraft: AircraftNow, rows: Iterable[Row]) -> Iterator[Row]:
    """A row for what was noticed and no row of the programme asks to be looked at."""
    last = {event.subject: event for event in aircraft.events if event.event == "noticed"}
    if not last:
        return
    asked = {trigger for row in rows for trigger in _triggers(row)}
    for what, event in last.items():
        if (
            what is not None
            and Trigger("noticed", what) not in asked
            and not _looked(aircraft, event)
        ):
            yield _row(aircraft, what, event)


DRIED = (DRYING, "solder-and-leads", "full-inspection")
"""Looks for which it was opened, by name."""
_DRY = Ask(
    name=DRYING,
    what="Unplug the pack and take it out, before anything gets power. Open the aircraft, rinse off"
    " salt and mud, let it dry for days. Look at plugs, solder joints and bearings; record that as"
    " drying.",
)
"""Common practice, no source."""


def dries(look: Completion) -> bool:
    """Whether it was opened for that look."""
    return look.result == "pass" and look.name in DRIED


def wet_rows(aircraft: AircraftNow) -> Iterator[Row]:
    """A row after water, told before what is to be plugged in, until somebody looked inside."""
    wet = next((one for one in reversed(aircraft.events) if one.event == "water"), None)
    if wet is None or any(look.seq > wet.seq and dries(look) for look in aircraft.inspections):
        return
    because = Because(why="wet").by(wet)
    yield danger_row(
        aircraft, _DRY, because, wet.place, grounds=True, state="open", rank=ranks.EMPTY_STATION
    )


_STRUCK = ("crash", "hard landing", "water", "noticed")


def is_struck(aircraft: AircraftNow) -> bool:
    """Whether anything happened to it that is told even while it is being built."""
    return any(event.event in _STRUCK for event in aircraft.events)


def struck_rows(aircraft: AircraftNow, rows: Iterable[Row]) -> list[Row]:
    """Of the rows of its programme those that it re-opened, after the row of what is wet."""
    return [*wet_rows(aircraft), *(row for row in rows if _by_what_struck(row))]


def _by_what_struck(row: Row) -> bool:
    trigger = None if row.because is None else row.because.trigger
    return row.state == "stale" and trigger is not None and trigger.event in _STRUCK


def _by_notice(row: Row) -> bool:
    because = row.because
    return (
        row.state == "stale"
        and because is not None
        and because.why == "trigger"
        and because.trigger is not None
        and because.trigger.event == "noticed"
    )


def _grounded(row: Row) -> Row:
    return msgspec.structs.replace(row, grounds=True, rank=min(row.rank, ranks.STALE_CHECK))


def _triggers(row: Row) -> Iterable[Trigger]:
    rule = row.rule
    return (*getattr(rule, "stale_after", ()), *getattr(rule, "also_after", ()))


def _looked(aircraft: AircraftNow, event: Event) -> bool:
    looks = (*aircraft.checks, *aircraft.inspections)
    return any(look.seq > event.seq and look.result == "pass" for look in looks) or any(
        repair.seq > event.seq for repair in aircraft.repairs
    )


def _row(aircraft: AircraftNow, what: str, event: Event) -> Row:
    because = Because(why="noticed", found=Noticed(what=what)).by(event)
    ask = Ask(name=f"look-after-{what.replace(' ', '-')}", what=LOOK_AT[what])
    return danger_row(aircraft, ask, because, event.place, grounds=True, state="open")


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
            yield _look_row(aircraft, programme, look, None, None)
    for here in aircraft.items():
        item = hangar.items.get(here.tag)
        if item is None:
            continue
        for look in _last_failed(item.inspections):
            if look.tags and (look.name, item.tag) not in told:
                yield _look_row(aircraft, programme, look, item.tag, here.station)


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


def _look_row(
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
        because=Because(why="failed", tag=tag, station=station, found=failed_as(look)).by(look),
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
