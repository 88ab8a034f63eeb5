"""Incidents, water and repairs, and which incident tells of which bad landing."""

from collections.abc import Iterable

from buildbook.hangar.amend import Amended
from buildbook.hangar.builders import AircraftBuilder
from buildbook.hangar.events import Touch, named, note_event, note_rewired
from buildbook.hangar.folding import BadLanding, Fold
from buildbook.hangar.packs.aside import strike
from buildbook.records.entries import Flight, Incident, Repair, Water
from buildbook.report.history import IncidentDone, RepairDone
from buildbook.report.packs.pack_history import AsideWhy

CRASHES = ("hard", "total")
"""Severities of an incident that make it a crash; a light one is a hard landing."""


def pair(fold: Fold, lines: Iterable[Amended]) -> None:
    """Find the incidents that tell of a bad landing of the same aircraft on the same day.

    Each takes the last such landing before it in the log that no other has taken, else the
    first after it; so a crash that is written twice counts once, and two crashes count twice.
    """
    days: dict[tuple[str | None, object], list[tuple[str, Incident | Flight]]] = {}
    told = set()
    for line in lines:
        said = line.stands
        if type(said) is Incident:
            told.add((said.aircraft, said.on))
        elif type(said) is not Flight or not _landed_badly(said):
            continue
        days.setdefault((said.aircraft, said.on), []).append((line.entry.uid, said))
    for day in told:
        _pair_day(fold, days[day])


def _landed_badly(flight: Flight) -> bool:
    """Whether any of its landings was none of the good ones."""
    rows = flight.rows
    if len(rows) == 1:
        return rows[0].landing != "normal"
    return any(row.landing != "normal" for row in rows)


def _pair_day(fold: Fold, day: list[tuple[str, Incident | Flight]]) -> None:
    before: list[BadLanding] = []
    waiting: list[tuple[str, Incident]] = []
    for uid, said in day:
        if isinstance(said, Incident):
            if before:
                _join(fold, before.pop(), uid, said)
            else:
                waiting.append((uid, said))
            continue
        for index, row in enumerate(said.rows):
            if row.landing == "normal":
                continue
            if waiting:
                _join(fold, BadLanding(uid, index), *waiting.pop(0))
            else:
                before.append(BadLanding(uid, index))


def _join(fold: Fold, landed: BadLanding, uid: str, incident: Incident) -> None:
    fold.incident_after[landed] = (uid, incident)
    fold.landing_of[uid] = landed


def touched_by(fold: Fold, aircraft: AircraftBuilder, incident: Incident) -> Touch:
    """What an incident touched: what it names, else everything."""
    return named(fold, aircraft, incident.touched)


def on_incident(fold: Fold, entry: Incident) -> None:
    """``incident``: an event of its own, unless a bad landing of the day was that event."""
    aircraft = fold.aircraft_of(entry)
    if aircraft is None:
        return
    landed = fold.landing_of.get(fold.at.uid)
    touch = touched_by(fold, aircraft, entry)
    aircraft.incidents.append(
        IncidentDone(
            **fold.at.stamp(),
            aircraft=aircraft.slug,
            severity=entry.severity,
            incident=entry,
            flight_uid=None if landed is None else landed.entry_uid,
            stations=touch.stations,
            tags=touch.tags,
        )
    )
    crash = entry.severity in CRASHES
    if entry.packs or (landed is None and crash):
        why: AsideWhy = "crash" if crash else "incident"
        strike(fold, aircraft, entry.packs, why, because=f"{why} of {aircraft.slug}")
    if landed is None:
        event = "crash" if crash else "hard landing"
        note_event(fold, aircraft, event, touch=touch)


def on_water(fold: Fold, entry: Water) -> None:
    """``water``: touches everything; the pack on board is set aside."""
    aircraft = fold.aircraft_of(entry)
    if aircraft is not None:
        note_event(fold, aircraft, "water", packs=entry.packs)
        strike(fold, aircraft, entry.packs, "water", "word", f"water, {aircraft.slug}")


def on_repair(fold: Fold, entry: Repair) -> None:
    """``repair``: touches what it names, else what its incident named, else everything."""
    aircraft = fold.aircraft_of(entry)
    if aircraft is None:
        return
    cause = _cause(aircraft, entry)
    touch = named(fold, aircraft, entry.touched)
    if touch.everything and cause is not None:
        touch = Touch(cause.stations, cause.tags)
    aircraft.repairs.append(
        RepairDone(
            **fold.at.stamp(),
            aircraft=aircraft.slug,
            repair=entry,
            after_uid=None if cause is None else cause.uid,
        )
    )
    note_event(fold, aircraft, "repair", touch=touch)
    note_rewired(fold, aircraft, entry.rewired)


def _cause(aircraft: AircraftBuilder, entry: Repair) -> IncidentDone | None:
    """The incident (or bad landing) of that id; one in the same file before one in another."""
    if entry.after is None:
        return None
    same_file = f"{entry.file}#{entry.after}"
    found = None
    for done in aircraft.incidents:
        for uid in (done.uid, done.flight_uid):
            if uid == same_file:
                return done
            if uid is not None and uid.endswith(f"#{entry.after}"):
                found = done
    return found
