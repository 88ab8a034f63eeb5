"""Dated changes of the aircraft itself. Named keys replace; what isn't named stays."""

from typing import TypeVar

import msgspec

from buildbook.hangar.builders import AircraftBuilder, motor_stations
from buildbook.hangar.events import EVERYTHING, Touch, note_event, note_rewired
from buildbook.hangar.folding import Fold
from buildbook.records.aircraft import Radio, Run, StationPlan, station_named
from buildbook.records.entries import Alteration
from buildbook.records.parts import KINDS
from buildbook.records.surfaces import Surface
from buildbook.report.history import MassChange

PACK_STATION = "pack"
Named = TypeVar("Named", bound=msgspec.Struct)


def on_alteration(fold: Fold, entry: Alteration) -> None:
    """``alteration``: one event for each key of aircraft.yaml that it names, and for a mass.

    New positions also move what sits there: one event for each kind of item.
    """
    aircraft = fold.aircraft_of(entry)
    if aircraft is None:
        return
    rewired = (*entry.rewired, *_rerouted(aircraft, entry))
    other_transmitter = _is_another(aircraft.radio, entry.radio)
    _replace_places(aircraft, entry)
    _replace_wholes(fold, aircraft, entry)
    aircraft.alterations += 1
    fold.changed(aircraft.slug)
    if entry.mass_kg is not None:
        aircraft.mass_changes.append(
            MassChange(
                **fold.at.stamp(),
                words=entry.words,
                mass_kg=entry.mass_kg,
                at=entry.at,
            )
        )
    keys = entry.keys if entry.mass_kg is None else (*entry.keys, "mass")
    if "sockets" in keys and "receiver" not in keys:
        keys = (*keys, "receiver")  # a lead in another socket is the receiver's leads changed
    for key in keys:
        note_event(fold, aircraft, "alteration", key, _touch(aircraft, entry, key))
    if other_transmitter:
        note_event(fold, aircraft, "fit", "transmitter")
    note_rewired(fold, aircraft, rewired)
    for kind, stations in _moved(aircraft, entry).items():
        tags = [
            here.tag for name in stations for here in aircraft.fitted.get(name, {}).get(kind, ())
        ]
        note_event(fold, aircraft, "move", kind, Touch(stations, tags))


def _rerouted(aircraft: AircraftBuilder, entry: Alteration) -> list[str]:
    """The motor stations that a changed, new or lost run of wire names at either end."""
    if "wiring" not in entry.keys:
        return []
    before = {_route(run) for run in aircraft.wiring}
    changed = before ^ {_route(run) for run in entry.wiring}
    known = {*aircraft.stations, *motor_stations(aircraft)}
    named = {station_named(end, known) for route in changed for end in route[:2]}
    return sorted(name for name in named if name is not None)


def _route(run: Run) -> tuple[str, ...]:
    """A run without the line on which it stands."""
    return (run.start, run.end, str(run.wire), str(run.length_m), str(run.plug))


def _moved(aircraft: AircraftBuilder, entry: Alteration) -> dict[str, list[str]]:
    """By kind of item, the stations that were moved. A pack, never fitted, sits at ``pack``.

    A name that is no station but a kind of part means wherever such a part sits.
    """
    moved: dict[str, list[str]] = {}
    for name in entry.positions:
        if name in KINDS and name not in aircraft.fitted:
            seats = [one for one, slots in aircraft.fitted.items() if slots.get(name)]
            moved.setdefault(name, []).extend(seats)
            continue
        kinds = [kind for kind, slot in aircraft.fitted.get(name, {}).items() if slot]
        for kind in [*kinds, *(["battery"] if name == PACK_STATION else [])]:
            moved.setdefault(kind, []).append(name)
    return moved


def _replace_places(aircraft: AircraftBuilder, entry: Alteration) -> None:
    """What is named station by station; of two records of one place the later one holds."""
    stations, positions = dict(aircraft.stations), dict(aircraft.positions)
    surfaces = dict(aircraft.surfaces)
    for name, plan in entry.stations.items():
        stations[name] = _over(stations.get(name, StationPlan()), plan)
        if plan.at is not None:
            positions.pop(name, None)
        aircraft.places[f"stations.{name}"] = entry.place(f"stations.{name}")
    for name, position in entry.positions.items():
        positions[name] = position
        aircraft.places[f"positions.{name}"] = entry.place(f"positions.{name}")
    for name, surface in entry.surfaces.items():
        surfaces[name] = _over(surfaces.get(name, Surface()), surface)
        aircraft.places[f"surfaces.{name}"] = entry.place(f"surfaces.{name}")
    aircraft.stations, aircraft.positions = stations, positions
    aircraft.surfaces = surfaces


def _replace_wholes(fold: Fold, aircraft: AircraftBuilder, entry: Alteration) -> None:
    """What is replaced as a whole, or (radio, bounds) field by field."""
    for key in entry.keys:
        if key not in ("stations", "positions", "surfaces"):
            aircraft.places[key] = entry.place(key)
    for name in ("receiver", "sockets", "wiring", "sundries"):
        if name in entry.keys:
            setattr(aircraft, name, getattr(entry, name))
    if entry.radio is not None:
        before = aircraft.radio
        aircraft.radio = entry.radio if before is None else _over(before, entry.radio)
    if entry.bounds is not None:
        limits = aircraft.bounds
        aircraft.bounds = entry.bounds if limits is None else _over(limits, entry.bounds)
    if entry.status is not None and entry.status != aircraft.status:
        aircraft.status, aircraft.status_since = entry.status, fold.at.day
        aircraft.places["status"] = entry.place("status")


def _is_another(before: Radio | None, after: Radio | None) -> bool:
    """Whether another transmitter is named than before; the first to be named is no other."""
    if before is None or after is None or None in (before.transmitter, after.transmitter):
        return False
    return before.transmitter != after.transmitter


def _over(before: Named, after: Named) -> Named:
    """The earlier value with whatever the later one gives."""
    given = {
        name: value
        for name in after.__struct_fields__
        if (value := getattr(after, name)) is not None and value != () and value != {}
    }
    return msgspec.structs.replace(before, **given)


def _touch(aircraft: AircraftBuilder, entry: Alteration, key: str) -> Touch:
    """The stations that are named, with all that sits there; else everything."""
    named = {
        "stations": entry.stations,
        "positions": entry.positions,
        "surfaces": entry.surfaces,
    }
    stations = named.get(key)
    if not stations:
        return EVERYTHING
    return Touch(stations, [tag for name in stations for tag in aircraft.fitted_at(name)])
