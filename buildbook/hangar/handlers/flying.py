"""Flights: tallies of aircraft and packs, bad landings, and packs that should have stayed down."""

from collections.abc import Iterable, Mapping
from operator import attrgetter
from typing import Any

import msgspec

from buildbook.basis import amounts
from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import either
from buildbook.hangar.builders import AircraftBuilder
from buildbook.hangar.doubts import doubt_volts
from buildbook.hangar.events import EVERYTHING, note_event
from buildbook.hangar.folding import BadLanding, Fold
from buildbook.hangar.handlers.incidents import CRASHES, touched_by
from buildbook.hangar.packs.aside import strike, struck_before
from buildbook.hangar.packs.doubts import doubt_flight
from buildbook.hangar.packs.rests import read_flight
from buildbook.records.aircraft import LEFT
from buildbook.records.entries import Flight, FlightRow, Incident, Opening
from buildbook.report.history import FlightDone, IncidentDone
from buildbook.report.packs.charge_tally import share_of_flight_ah

HOUR_S = 3600
CHECK = "check"
"""The purpose of a check flight."""


def on_flight(fold: Fold, entry: Flight) -> None:
    """``flight`` and ``flights``: one ``FlightDone`` a row."""
    aircraft = fold.aircraft_of(entry)
    if aircraft is None:
        return
    if aircraft.status != "flying" or aircraft.open_defects:
        _object_to_flying(fold, aircraft, entry)
    doubt_volts(fold, entry)
    gains = _gains(fold, aircraft, entry)
    firmware = aircraft.firmware_fitted(fold.items)
    at = fold.at
    around = _around(entry)
    for index, row in enumerate(entry.rows):
        place = Place(entry.file, row.line) if row.line else at.place
        flight = FlightDone(
            seq=at.sequence,
            on=at.day,
            uid=at.uid,
            place=place,
            aircraft=aircraft.slug,
            row=row,
            row_index=index,
            gains=gains,
            volts=entry.volts,
            purpose=entry.purpose,
            result=entry.result,
            noticed=entry.noticed,
            motor_run_s=entry.motor_run_s,
            firmware=firmware,
            packs_aside=_aside(fold, row.packs),
        )
        if around:
            flight = msgspec.structs.replace(flight, **around)
        aircraft.flights.append(flight)
        motor_s = None if entry.motor_run_s is None else flight.motor_s
        aircraft.tally.add(at.sequence, at.day, row.duration_s, motor_s)
        if row.packs:
            _fly_packs(fold, aircraft, flight, of_one=len(entry.rows) == len(row.packs) == 1)
            if fold.struck:
                struck_before(fold, aircraft, row.packs)
        if entry.noticed and index == len(entry.rows) - 1:
            for what in entry.noticed:
                note_event(fold, aircraft, "noticed", what)
        if row.landing != "normal":
            fold.at = msgspec.structs.replace(at, place=place)
            _land_badly(fold, aircraft, index, row)


_AROUND = (
    "wind",
    "temperature_k",
    "payload_kg",
    "where",
    "preflight",
    "handling",
    "timing",
    "note",
)
"""What few flights say. Apart, as CPython takes six times as long over more than 15 keywords."""

_around_of = attrgetter(*_AROUND)
_NOT_SAID = (None,) * len(_AROUND)


def _around(entry: Flight) -> Mapping[str, Any]:
    """What was said of that, by name."""
    said = _around_of(entry)
    return {} if said == _NOT_SAID else dict(zip(_AROUND, said, strict=True))


LONG_SHARE_S, SHORT_SHARE_S = 181.0, 19.0
"""Half of the last decimal of hours as the logbook shows them, and a second: under an hour two."""


def on_opening(fold: Fold, entry: Opening) -> None:
    """``opening``: changes nothing; the totals so far must be those brought forward (R40).

    After UK AMC1 UAS.SPEC.050(1)(g): a new volume begins with the totals of the old one.
    """
    aircraft = fold.aircraft_of(entry)
    if aircraft is None:
        return
    total, brought = aircraft.total, entry.totals
    if brought.duration_s is not None:
        apart_s = abs(brought.duration_s - total.duration_s)
        if apart_s > (LONG_SHARE_S if total.duration_s >= HOUR_S else SHORT_SHARE_S):
            said_h, has_h = amounts.hours(brought.duration_s), amounts.hours(total.duration_s)
            apart = f"{amounts.trimmed(apart_s / HOUR_S, 2)} h"
            _object_to_opening(fold, aircraft, entry, "time", (said_h, has_h, apart))
    if brought.flights is not None and brought.flights != total.flights:
        counts = (brought.flights, total.flights)
        said_, has = (amounts.count("flight", number) for number in counts)
        apart = amounts.count("flight", abs(brought.flights - total.flights))
        _object_to_opening(fold, aircraft, entry, "flights", (said_, has, apart))


def _object_to_opening(
    fold: Fold, aircraft: AircraftBuilder, entry: Opening, key: str, words: tuple[str, str, str]
) -> None:
    """words: what is brought forward, what the log has up to then, and how far they are apart."""
    last = aircraft.flights[-1].place if aircraft.flights else aircraft.record.place("carried")
    fold.objections.object(
        f"{words[0]} brought forward, the log before has {words[1]}: differs by {words[2]}",
        entry.place(f"opening.{key}"),
        hint="correct the opening, or the entries before it"
        if aircraft.flights
        else "life before these records is carried: in aircraft.yaml",
        also=(last,),
        about=aircraft.slug,
    )


def _aside(fold: Fold, packs: Iterable[str]) -> tuple[str, ...]:
    """Those of the packs of a flight that were set aside."""
    at, items = fold.at, fold.items
    return tuple([tag for tag in packs if tag in items and items[tag].is_out(at.day, at.log)])


def _gains(fold: Fold, aircraft: AircraftBuilder, entry: Flight) -> str | None:
    """The set flown: the one that the entry names, else the one in force."""
    if entry.gains is None:
        return aircraft.gain_periods[-1].name if aircraft.gain_periods else None
    if entry.gains not in aircraft.gain_sets:
        fold.objections.object(
            f"gain set {quoted(entry.gains)} flown on {entry.on} before its values were written",
            entry.place("gains"),
            again=f"flown with gain set {entry.gains}",
            hint="write it first: "
            + either(
                f"gains: {entry.gains} with values:",
                f"enter gains {aircraft.slug} {entry.gains} roll.p=38",
            ),
            about=aircraft.slug,
        )
    return entry.gains


def _object_to_flying(fold: Fold, aircraft: AircraftBuilder, entry: Flight) -> None:
    """Flown while building; flown after it was retired or sold; flown with a grounding defect.

    ``status: retired`` in aircraft.yaml, without an alteration, says how the story ended.
    """
    slug, status, since = aircraft.slug, aircraft.status, aircraft.status_since
    if status == "building" and entry.purpose == CHECK:
        return  # its last set-up check
    if status == "building" or (status in LEFT and since is not None):
        fold.objections.object(
            f"{slug} flown on {fold.at.day}, though {status}"
            + ("" if since is None else f" since {since}"),
            fold.at.place,
            again=f"flown though {status} since {since}",
            severity="warning" if status == "building" else "problem",
            hint="write the change as an alteration"
            + either(" with status: flying", f": enter alteration {slug} 'set up' --status flying"),
            also=(aircraft.places["status"],),
            about=slug,
        )
    for state in aircraft.open_defects.values():
        if state.defect.severity != "grounds":
            continue
        fold.objections.object(
            f"{slug} flown on {fold.at.day} with a grounding defect open since {state.on}:"
            f" {quoted(state.defect.words)}",
            fold.at.place,
            again=f"flown with defect {state.uid}",
            severity="warning",
            also=(state.place,),
            about=slug,
            of_standing=True,
        )


def _fly_packs(fold: Fold, aircraft: AircraftBuilder, flight: FlightDone, *, of_one: bool) -> None:
    used_ah = share_of_flight_ah(flight)
    for tag in flight.row.packs:
        pack = fold.item_used(tag, flight.place, aircraft.slug)
        if pack is None:
            continue
        if tag in flight.packs_aside:
            fold.object_to_state(
                pack,
                f"flown on {aircraft.slug} on {fold.at.day}",
                flight.place,
                aircraft.slug,
                severity="warning",
                again="flown",
            )
        doubt_flight(fold, pack, flight, used_ah, of_one)
        read_flight(fold, pack, flight, of_one)
        pack.flights.append(flight)
        pack.tally.add(fold.at.sequence, fold.at.day, flight.duration_s)
        pack.through.flown(fold.at.sequence, used_ah)
        if tag not in aircraft.packs:
            aircraft.packs[tag] = None
            pack.flown_on.append(aircraft.slug)


def _object_to_light(fold: Fold, aircraft: AircraftBuilder, incident: Incident) -> None:
    """A crash told of as less stays one: it asks for all its looks, whatever was touched."""
    if not incident.sure:
        fold.objections.object(
            f"a landing of {fold.at.day} is a crash, and told of as a {incident.severity} incident",
            incident.place("severity"),
            severity="warning",
            hint="what a crash asks to be looked at stays open; correct one of them",
            also=(fold.at.place,),
            about=aircraft.slug,
        )


def _land_badly(fold: Fold, aircraft: AircraftBuilder, index: int, row: FlightRow) -> None:
    """A hard landing or crash, with the incident of the same day that tells of it, if any."""
    told = fold.incident_after.get(BadLanding(fold.at.uid, index))
    crash = row.landing == "crash"
    touch = EVERYTHING
    if told is not None:
        incident = told[1]
        if crash and incident.severity not in CRASHES:
            _object_to_light(fold, aircraft, incident)
        else:
            touch = touched_by(fold, aircraft, incident)
        crash = crash or incident.severity in CRASHES
    else:
        aircraft.incidents.append(
            IncidentDone(
                **fold.at.stamp(),
                aircraft=aircraft.slug,
                severity="hard" if crash else "light",
                flight_uid=fold.at.uid,
            )
        )
    if crash and (row.packs or told is None or not told[1].packs):
        strike(fold, aircraft, row.packs, "crash", because=f"crash of {aircraft.slug}")
    event = "crash" if crash else "hard landing"
    note_event(fold, aircraft, event, touch=touch, packs=row.packs, row_index=index)
