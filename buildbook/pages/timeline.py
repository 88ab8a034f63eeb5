"""The life of an aircraft: flying by month, what changed when, and how it was after each month."""

import datetime
from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

import msgspec
from markupsafe import Markup

from buildbook.audience.view import View
from buildbook.basis import saying
from buildbook.drawings.plans import Table
from buildbook.drawings.timeline import timeline_drawing, timeline_table
from buildbook.hangar.happened import DefectState, LogLine
from buildbook.hangar.state import AircraftNow
from buildbook.pages.addresses import address_of
from buildbook.pages.entry_words import entry_kind, entry_line
from buildbook.pages.flying_trends import trends_of_aircraft
from buildbook.pages.linking import Linker, Piece
from buildbook.pages.page import Page
from buildbook.pages.timeline_plan import timeline_plan
from buildbook.records import entries

CHANGING = (
    entries.Fit,
    entries.Remove,
    entries.StateChange,
    entries.Setting,
    entries.Gains,
    entries.Weigh,
    entries.Incident,
    entries.Repair,
    entries.Defect,
    entries.Cleared,
    entries.Firmware,
    entries.Alteration,
    entries.Water,
)
"""What changes an aircraft; flights, checks and charges leave it as it is."""


class Change(msgspec.Struct, frozen=True, kw_only=True):
    """One entry that changed something."""

    on: datetime.date
    uid: str
    kind: str
    line: tuple[Piece, ...]


class Station(msgspec.Struct, frozen=True, kw_only=True):
    """What sat at a station: kind and tags."""

    name: str
    parts: tuple[tuple[str, tuple[str, ...]], ...]


class Moment(msgspec.Struct, frozen=True, kw_only=True):
    """A month: what changed in it, and how the aircraft was at its end."""

    anchor: str
    words: str
    changes: tuple[Change, ...]
    stations: tuple[Station, ...]
    gains: str | None
    settings: tuple[tuple[str, str], ...]
    defects: tuple[DefectState, ...]
    flown: str


def keys(view: View) -> Iterable[str]:
    """Each aircraft with a log."""
    return tuple(slug for slug, found in view.hangar.aircraft.items() if found.log)


def page(view: View, slug: str) -> Page:
    """The timeline of an aircraft."""
    name = view.hangar.aircraft[slug].record.aircraft
    plan = timeline_plan(view, slug)
    drawing: Markup | None = timeline_drawing(plan) if plan else None
    table: Table | None = timeline_table(plan) if plan else None
    return Page(
        address=address_of("timeline", slug),
        template="timeline.html.j2",
        title=f"Timeline of {name}",
        crumbs=(
            (address_of("hangar"), view.hangar.ledger.keeper.hangar),
            (address_of("aircraft", slug), name),
        ),
        facts={
            "slug": slug,
            "drawing": drawing,
            "table": table,
            "trends": tuple(trends_of_aircraft(view, slug)),
            "moments": tuple(moments(view, slug)),
        },
        about=f"What changed on {name} month by month, and how it was afterwards.",
    )


def moments(view: View, slug: str) -> tuple[Moment, ...]:
    """Every month in which something changed, the newest first."""
    aircraft = view.hangar.aircraft[slug]
    link = Linker(view).pieces
    lines = [line for line in aircraft.log if isinstance(line.stands, CHANGING)]
    lines.sort(key=lambda line: (line.entry.on, line.seq))
    found = []
    for (year, month), of_month in groupby(lines, lambda line: _month(line.entry.on)):
        found.append(
            Moment(
                anchor=f"m-{year}-{month:02d}",
                words=saying.month(datetime.date(year, month, 1)),
                changes=_newest_first(
                    Change(
                        on=line.entry.on,
                        uid=line.entry.uid.removeprefix("#"),
                        kind=entry_kind(line.stands),
                        line=link(entry_line(line.stands)),
                    )
                    for line in of_month
                    if line.stands
                ),
                stations=_stations(view, slug, (year, month)),
                gains=_gains(aircraft, (year, month)),
                settings=tuple(_settings(aircraft, (year, month))),
                defects=_open(aircraft, (year, month)),
                flown=_flown(aircraft.log, (year, month)),
            )
        )
    return tuple(reversed(found))


def _newest_first(changes: Iterable[Change]) -> tuple[Change, ...]:
    return tuple(changes)[::-1]


When = tuple[int, int]
"""Year and month: how it was at the end of it."""


def _month(on: datetime.date) -> When:
    return on.year, on.month


def months_of_change(aircraft: AircraftNow) -> tuple[When, ...]:
    """The months in which something changed, oldest first."""
    changed = (line for line in aircraft.log if isinstance(line.stands, CHANGING))
    return tuple(sorted({_month(line.entry.on) for line in changed}))


def moment_before(months: Sequence[When], on: datetime.date) -> str:
    """The anchor of the newest of these months, oldest first, up to that day; else nothing."""
    count = bisect_right(months, _month(on))
    return f"m-{months[count - 1][0]}-{months[count - 1][1]:02d}" if count else ""


def _stations(view: View, slug: str, when: When) -> tuple[Station, ...]:
    """What sat where at the end of a month."""
    stations: dict[str, dict[str, list[str]]] = {}
    for tag, item in view.hangar.items.items():
        for stay in item.stays:
            gone = stay.until is not None and _month(stay.until) <= when
            if stay.aircraft == slug and _month(stay.since) <= when and not gone:
                kind = stay.kind.replace("_", " ")
                stations.setdefault(stay.station, {}).setdefault(kind, []).append(tag)
    order = {name: at for at, name in enumerate(view.hangar.aircraft[slug].motor_stations)}
    return tuple(
        Station(
            name=name,
            parts=tuple((kind, tuple(tags)) for kind, tags in sorted(parts.items())),
        )
        for name, parts in sorted(
            stations.items(), key=lambda pair: (order.get(pair[0], len(order)), pair[0])
        )
    )


def _gains(aircraft: AircraftNow, when: When) -> str | None:
    """The set that was in force at the end of a month."""
    names = [period.name for period in aircraft.gain_periods if _month(period.on) <= when]
    return names[-1] if names else None


def _settings(aircraft: AircraftNow, when: When) -> Iterator[tuple[str, str]]:
    """Settings as they were at the end of a month, in the order of first writing."""
    found: dict[str, str] = {}
    for line in sorted(aircraft.log, key=lambda line: line.seq):
        if isinstance(line.stands, entries.Setting) and _month(line.entry.on) <= when:
            of = f" of {line.stands.of}" if line.stands.of else ""
            for name, value in line.stands.settings.items():
                found[f"{name.replace('_', ' ')}{of}"] = value
    yield from found.items()


def _open(aircraft: AircraftNow, when: When) -> tuple[DefectState, ...]:
    return tuple(
        defect
        for defect in aircraft.defects
        if _month(defect.on) <= when
        and (defect.cleared_on is None or _month(defect.cleared_on) > when)
    )


def _flown(log: Iterable[LogLine], when: When) -> str:
    totals = [
        (line.seq, line.total_s, line.total_flights)
        for line in log
        if _month(line.entry.on) <= when
    ]
    _, seconds, flights = max(totals, default=(0, 0.0, 0))
    return f"{saying.hours(seconds)}, {saying.count('flight', flights)}" if flights else ""
