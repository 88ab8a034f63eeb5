"""The set-up sheet: the checks one after the other, then the first flights.

They stand in the order of doing, by stages; a step that fails stops those below it. Cautions
stand before the step that they are about.
"""

import datetime
from collections.abc import Callable, Container, Iterable, Iterator, Mapping
from typing import get_args

import msgspec

from buildbook.pages.addresses import address_of, row_anchor
from buildbook.pages.page import Page
from buildbook.records.parts import Hand
from buildbook.records.programmes import STAGES, CheckRule, Stage, stage_of
from buildbook.report.reports import Reports
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep.expected import Expected
from buildbook.report.upkeep.work import Row
from buildbook.words.first_flights import FirstFlight, first_flights
from buildbook.words.names import name_words
from buildbook.words.sheets.expected import difference_words, expected_words, is_past, last_words
from buildbook.words.surfaces import surface_sense, throw_words

_STAGES: Mapping[Stage, tuple[str, str]] = {
    "unplugged": ("On the bench, no pack plugged in", "With no pack in, nothing can turn."),
    "plugged": ("On the bench, a pack plugged in", "Propellers off, every one of them."),
    "field": ("At the field, propellers still off", "It takes room to walk away."),
    "propellers on": ("Propellers on, pack out", "Fit the propellers only now."),
    "flight": ("In the air", "The first flights are at the end of the sheet."),
}
"""Heading and a line of each stage."""

WORST = ("failed", "stale", "never done", "ok", "not applicable")
NOT_ON_THE_SHEET = ("check-flight",)
"""Flown, not set up: the first flights at the end of the sheet are it."""


class Spot(msgspec.Struct, frozen=True, kw_only=True):
    """A check at one station, of one item, or on the whole aircraft.

    differs: the last reading is another than can be expected here. difference: how far it was
    from it, in words. last_on, last_uid: of the entry that holds it, where that is not the check.
    """

    where: str
    row: Row
    expected: str
    last: str
    differs: bool = False
    difference: str = ""
    last_on: datetime.date | None = None
    last_uid: str | None = None


class Step(msgspec.Struct, frozen=True, kw_only=True):
    """One check of the sheet. number: in the order of doing. first: the first that is not passed.

    on: the day that brought it into its state: that of the failure, else last done.
    wanted: readings to take, name and words.
    """

    anchor: str
    number: int = 0
    first: bool = False
    name: str
    what: str
    state: str
    on: datetime.date | None = None
    propellers_off: bool
    caution: bool
    second_person: bool
    expected: str
    wanted: tuple[tuple[str, str], ...]
    spots: tuple[Spot, ...]


class Stretch(msgspec.Struct, frozen=True, kw_only=True):
    """Steps under one heading."""

    heading: str
    anchor: str
    words: str
    steps: tuple[Step, ...]


def keys(reports: Reports) -> Iterable[str]:
    """Each aircraft that a programme has checks for."""
    return tuple(slug for slug in reports.hangar.aircraft if reports.set_up_checks(slug))


def page(reports: Reports, slug: str) -> Page:
    """The set-up sheet of an aircraft."""
    aircraft = reports.hangar.aircraft[slug]
    name = aircraft.record.aircraft
    rows = reports.set_up_checks(slug)
    return Page(
        address=address_of("set-up", slug),
        template="set_up.html.j2",
        title=f"Set-up sheet of {name}",
        crumbs=(
            (address_of("hangar"), reports.hangar.ledger.keeper.hangar),
            (address_of("aircraft", slug), name),
        ),
        facts={
            "slug": slug,
            "stretches": numbered(stretches(reports, slug, rows)),
            "dropped": tuple(row for row in rows if row.state == "not applicable"),
            "first_flights": _flights(aircraft),
            "check_flight": next((row for row in rows if row.name in NOT_ON_THE_SHEET), None),
        },
        about=f"The set-up checks of {name} in their order, to tick on paper or screen.",
    )


def _flights(aircraft: AircraftNow) -> tuple[FirstFlight, ...]:
    return first_flights(wings=aircraft.record.kind == "aeroplane")


def stretches(reports: Reports, slug: str, rows: Iterable[Row]) -> Iterator[Stretch]:
    """The stages of setting up that have a step, each with its steps in the order of doing."""
    by_name: dict[str, list[Row]] = {}
    for row in rows:
        if row.name not in NOT_ON_THE_SHEET and row.state != "not applicable":
            by_name.setdefault(row.name, []).append(row)
    aircraft = reports.hangar.aircraft[slug]
    readings = {(one.check, one.station): one for one in reports.expected_readings(slug)}
    shared = joint(row for found in by_name.values() for row in found)
    for stage in STAGES:
        steps = tuple(
            _step(aircraft, readings, name, found, shared)
            for name, found in by_name.items()
            if _stage(found[0]) == stage
        )
        if steps:
            heading, words = _STAGES[stage]
            yield Stretch(
                heading=heading,
                anchor=stage.replace(" ", "-"),
                words=words,
                steps=tuple(_cautioned(steps)),
            )


def numbered(found: Iterable[Stretch]) -> tuple[Stretch, ...]:
    """Steps counted through all stages; the first that is not passed is where one goes on."""
    number, begun = 0, False
    done = []
    for stretch in found:
        steps = []
        for step in stretch.steps:
            number += 1
            first = not begun and step.state != "ok"
            begun = begun or first
            steps.append(msgspec.structs.replace(step, number=number, first=first))
        done.append(msgspec.structs.replace(stretch, steps=tuple(steps)))
    return tuple(done)


def _stage(row: Row) -> Stage:
    return stage_of(row.rule) if isinstance(row.rule, CheckRule) else "plugged"


def _cautioned(steps: Iterable[Step]) -> Iterator[Step]:
    """The full caution stands before each run of steps with the propellers off."""
    off = False
    for step in steps:
        yield msgspec.structs.replace(step, caution=step.propellers_off and not off)
        off = step.propellers_off


def _step(
    aircraft: AircraftNow,
    readings: Mapping[tuple[str, str | None], Expected],
    name: str,
    rows: list[Row],
    shared: Container[str | None],
) -> Step:
    rule = rows[0].rule if isinstance(rows[0].rule, CheckRule) else None
    expect = _EXPECTED.get(name)
    by_station = _BY_STATION.get(name)
    state = min((row.state for row in rows), key=_rank)
    whole = readings.get((name, None))
    return Step(
        anchor=row_anchor(name),
        name=name_words(name),
        what=rule.what if rule else "",
        state=state,
        on=_day_of(state, rows),
        propellers_off=rule is None or rule.propellers == "off",
        caution=False,
        second_person=rule is not None and rule.second_person,
        expected=expected_words(whole) if whole else expect(aircraft) if expect else "",
        wanted=tuple((rule.readings if rule else {}).items()),
        spots=tuple(
            _read_spot(row, readings[name, row.station], shared)
            if (name, row.station) in readings
            else _spot(
                row,
                by_station(aircraft, row.station) if by_station and row.station else "",
                last_readings(row, shared),
            )
            for row in rows
        ),
    )


def _day_of(state: str, rows: Iterable[Row]) -> datetime.date | None:
    """The newest day of the rows in that state: a failure has its own, later than the last pass."""
    days = (
        row.because.on if state == "failed" and row.because else row.done_on
        for row in rows
        if row.state == state
    )
    return max((day for day in days if day is not None), default=None)


def _spot(row: Row, expected: str, last: str) -> Spot:
    """A spin is one of two words: another than expected is told as a difference."""
    spins = get_args(Hand)
    differs = expected in spins and last in spins and last != expected
    return Spot(
        where=row.station or row.tag or "", row=row, expected=expected, last=last, differs=differs
    )


def _read_spot(row: Row, reading: Expected, shared: Container[str | None]) -> Spot:
    """A number: what was expected at a station, what was read last, and how far it was off."""
    return Spot(
        where=row.station or row.tag or "",
        row=row,
        expected=expected_words(reading) if row.station else "",
        last=_last_read(reading, last_readings(row, shared)),
        differs=is_past(reading),
        difference=difference_words(reading),
        last_on=reading.on,
        last_uid=reading.uid,
    )


def _last_read(reading: Expected, said: str) -> str:
    """As it was written, and a pack's voltage also as that of a cell."""
    same = last_words(reading)
    if said and same and reading.unit == "V a cell" and same not in said:
        return f"{said}, that is {same}"
    return said or same


def _rank(state: str) -> int:
    return WORST.index(state) if state in WORST else 0


def joint(rows: Iterable[Row]) -> frozenset[str]:
    """Entries that passed several checks at once."""
    names: dict[str, set[str]] = {}
    for row in rows:
        if row.done_uid:
            names.setdefault(row.done_uid, set()).add(row.name)
    return frozenset(uid for uid, found in names.items() if len(found) > 1)


def last_readings(row: Row, joint: Container[str | None]) -> str:
    """What was read last; of one station, the bare value.

    Of an entry that passed several checks, only what this one asks for: a distance walked is no
    reading of the throttle cut.
    """
    if row.station and list(row.readings) == [row.station]:
        return row.readings[row.station]
    wanted = row.rule.readings if isinstance(row.rule, CheckRule) else {}
    said = (
        f"{name.replace('_', ' ')} {value}"
        for name, value in row.readings.items()
        if row.done_uid not in joint or name in wanted or "each" in wanted
    )
    return ", ".join(said)


def _spin(aircraft: AircraftNow, station: str) -> str:
    plan = aircraft.stations.get(station)
    return plan.spin or "" if plan else ""


def _sense(_aircraft: AircraftNow, surface: str) -> str:
    return surface_sense(surface)


def _throws(aircraft: AircraftNow, surface: str) -> str:
    found = aircraft.surfaces.get(surface)
    return throw_words(found) if found else ""


_BY_STATION: Mapping[str, Callable[[AircraftNow, str], str]] = {
    "spin-directions": _spin,
    "propeller-fit": _spin,
    "surface-sense": _sense,
    "surface-throws": _throws,
}


def _receiver(aircraft: AircraftNow) -> str:
    return ", ".join(aircraft.receiver)


def _failsafe(aircraft: AircraftNow) -> str:
    failsafe = aircraft.radio.failsafe if aircraft.radio else {}
    return ", ".join(f"{name}: {does}" for name, does in failsafe.items())


def _throttle_cut(aircraft: AircraftNow) -> str:
    return (aircraft.radio.throttle_cut or "") if aircraft.radio else ""


_EXPECTED: Mapping[str, Callable[[AircraftNow], str]] = {
    "receiver-order": _receiver,
    "failsafe": _failsafe,
    "throttle-cut": _throttle_cut,
}
"""What the records lead one to expect of a check on the whole aircraft, where it is no number."""
