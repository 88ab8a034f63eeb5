"""Small builders of programmes and of work lists for the tests of this room."""

import datetime
from collections.abc import Mapping, Sequence
from typing import Any

import msgspec
from written_logs import Log, aircraft, day, ledger

from buildbook.hangar.fold import fold
from buildbook.records.aircraft import Aircraft
from buildbook.records.parts import Item
from buildbook.records.programmes import (
    CheckRule,
    Interval,
    LimitRule,
    Programme,
    TaskRule,
    Trigger,
)
from buildbook.report.state import Hangar
from buildbook.report.upkeep.work import Reason, Row, Standing, WorkList
from buildbook.upkeep.work_list import work_list
from buildbook.words.measures.days import EXACT
from buildbook.words.reasons import reason_words, row_words

HOUR = 3600.0
FILE = "programmes/club.yaml"
PLAIN = ("hard landing", "another pack mass", "another cell count")  # no subject follows


def triggers(text: str) -> tuple[Trigger, ...]:
    """``fit motor, crash, hard landing, idle 90 days``."""
    found = []
    for one in filter(None, text.split(", ")):
        event, _, subject = one.partition(" ")
        plain = one in PLAIN or not subject
        found.append(Trigger(one) if plain else Trigger(event, subject))
    return tuple(found)


def check(name: str, stale_after: str = "", **more: Any) -> CheckRule:
    return CheckRule(
        file=FILE, line=1, check=name, what="Look.", stale_after=triggers(stale_after), **more
    )


def every(**units: Any) -> Interval:
    """``hours=10`` in hours."""
    if "hours" in units:
        units["duration_s"] = round(units.pop("hours") * HOUR)
    return Interval(**units)


def task(
    name: str,
    interval: Mapping[str, Any],
    each: str = "aircraft",
    tolerance: Mapping[str, Any] | None = None,
    also_after: str = "",
    **more: Any,
) -> TaskRule:
    return TaskRule(
        file=FILE,
        line=1,
        task=name,
        what="Look.",
        each=each,
        every=every(**interval),
        tolerance=every(**(tolerance or {})),
        also_after=triggers(also_after),
        **more,
    )


def limit(name: str, each: str, **at: Any) -> LimitRule:
    if "hours" in at:
        at["duration_s"] = at.pop("hours") * HOUR
    return LimitRule(file=FILE, line=1, limit=name, each=each, **at)


def programme(
    *rules: CheckRule | TaskRule | LimitRule, name: str = "club", **more: Any
) -> Programme:
    return Programme(
        file=FILE,
        line=1,
        name=name,
        checks=tuple(rule for rule in rules if isinstance(rule, CheckRule)),
        tasks=tuple(rule for rule in rules if isinstance(rule, TaskRule)),
        life_limits=tuple(rule for rule in rules if isinstance(rule, LimitRule)),
        **more,
    )


def hangar(
    logs: Sequence[Log],
    programmes: Sequence[Programme] = (),
    *,
    items: Sequence[str | Item] = (),
    fleet: Sequence[Aircraft] | None = None,
    as_of: str = "12-31",
    **keeper: Any,
) -> Hangar:
    """The hangar of these logs; every aircraft has the programme ``club`` unless told otherwise."""
    if fleet is None:
        slugs = dict.fromkeys(log.aircraft for log in logs if log.aircraft)
        fleet = [aircraft(slug, programme="club") for slug in slugs]
    read = ledger(logs, items, fleet)
    read = msgspec.structs.replace(
        read,
        programmes={one.name: one for one in programmes},
        keeper=msgspec.structs.replace(read.keeper, **keeper),
    )
    return fold(read, day(as_of))


def work(*args: Any, **more: Any) -> WorkList:
    return work_list(hangar(*args, **more))


def rows(listed: WorkList, name: str) -> list[Row]:
    """The rows of that name, by aircraft, station and tag."""
    found = [row for row in listed.rows if row.name == name]
    return sorted(found, key=lambda row: (row.aircraft or "", row.station or "", row.tag or ""))


def the_row(listed: WorkList, name: str) -> Row:
    (row,) = rows(listed, name)
    return row


def states(listed: WorkList, name: str) -> dict[str, str]:
    """State by station, else by tag, else by aircraft."""
    return {row.station or row.tag or row.aircraft or "": row.state for row in rows(listed, name)}


def on(listed: WorkList, slug: str) -> Standing:
    return next(one for one in listed.aircraft if one.slug == slug)


def told(standing: Any) -> list[str]:
    """The reasons as they are told."""
    return [reason_words(reason, EXACT) for reason in standing.reasons]


def date(text: str) -> datetime.date:
    return day(text)


STATIONS = ("front-left", "front-right", "rear-left", "rear-right")
WHOLE = [f"{kind}-{number}" for kind in "MER" for number in range(1, 5)]


def built(log: Log, on_day: str = "01-01", **more: Any) -> Log:
    """A quad with M-1..M-4, E-1..E-4, R-1..R-4 fitted, in the order of ``STATIONS``."""
    slots = {
        station: {"motor": f"M-{n}", "esc": f"E-{n}", "propeller": f"R-{n}"}
        for n, station in enumerate(STATIONS, start=1)
    }
    log.fit(on_day, slots, **more)
    return log


def worded(one: Row | Reason) -> str:
    """A row or a reason in words."""
    return row_words(one, EXACT) if isinstance(one, Row) else reason_words(one, EXACT)
