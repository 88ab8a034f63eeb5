"""Settings, gain sets and firmware in force."""

from collections.abc import Mapping

import msgspec

from buildbook.basis.amounts import listed
from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import SURE, either
from buildbook.hangar.builders import AircraftBuilder, motor_stations
from buildbook.hangar.events import EVERYTHING, Touch, named, note_event, stations_of
from buildbook.hangar.folding import Fold
from buildbook.records.aircraft import Radio
from buildbook.records.entries import Firmware, Gains, Setting, Verdict
from buildbook.records.readings import (
    is_of_binding,
    is_of_motors,
    is_of_mounting,
    is_of_radio,
    is_of_turning,
    stations_named,
)
from buildbook.report.history import GainSet, GainsPeriod, GainsVerdict, InForce


def on_setting(fold: Fold, entry: Setting) -> None:
    """``setting``: by name and by what it is of; the last one written is in force."""
    aircraft = fold.aircraft_of(entry)
    if aircraft is None:
        return
    touch = EVERYTHING if entry.of is None else named(fold, aircraft, (entry.of,))
    for name, value in entry.settings.items():
        in_force = InForce(
            **fold.at.stamp(entry.place(f"setting.{name}")),
            name=name,
            value=value,
            of=entry.of,
            because=entry.because,
        )
        aircraft.settings = {**aircraft.settings, (entry.of, name): in_force}
        aircraft.setting_log.append(in_force)
        note_event(fold, aircraft, "setting", name, touch)
    turned = _turned(fold, aircraft, entry, touch)
    if turned is not None:
        note_event(fold, aircraft, "rewired", touch=turned)
    if any(map(is_of_radio, entry.settings)):
        note_event(fold, aircraft, "alteration", "radio")
    _put_in_memory(aircraft, entry)
    if "bind" not in entry.settings and any(map(is_of_binding, entry.settings)):
        note_event(fold, aircraft, "setting", "bind")
    if any(map(is_of_mounting, entry.settings)):
        note_event(fold, aircraft, "move", "controller")
    fold.changed(aircraft.slug)


def _put_in_memory(aircraft: AircraftBuilder, entry: Setting) -> None:
    """A setting by the name of the memory says in which it is now."""
    memory = entry.settings.get("memory")
    if memory is not None and entry.of is None:
        radio = aircraft.radio or Radio()
        aircraft.radio = msgspec.structs.replace(radio, memory=str(memory))
        aircraft.places["radio"] = entry.place("setting.memory")


def _turned(fold: Fold, aircraft: AircraftBuilder, entry: Setting, touch: Touch) -> Touch | None:
    """The motors whose turning a setting is about; None where it is about something else."""
    driven = motor_stations(aircraft)
    said = entry.settings.items()
    if not any(is_of_turning(*one) for one in said):
        return None
    if entry.of is not None:
        return touch if set(touch.stations) & {*driven} else None
    if any(is_of_motors(*one) for one in said):
        return EVERYTHING
    of = dict.fromkeys(at for one in said for at in stations_named(*one, driven))
    return named(fold, aircraft, of) if of else None


def on_firmware(fold: Fold, entry: Firmware) -> None:
    """``firmware``: by tag, with the item wherever it goes; an event on the aircraft it sits on."""
    for tag, version in entry.versions.items():
        item = fold.item_used(tag, entry.place(f"firmware.{tag}"), entry.aircraft)
        if item is None:
            continue
        item.firmware = version
        carrier = None if item.aircraft is None else fold.aircraft[item.aircraft]
        stations = stations_of(fold, carrier, tag)
        if carrier is not None:
            carrier.firmware = None
            fold.changed(carrier.slug)
        note_event(fold, carrier, "firmware", item.spec.kind, Touch(stations, (tag,)))
        for aircraft in fold.aircraft.values():
            if aircraft.radio is not None and aircraft.radio.transmitter == tag:
                note_event(fold, aircraft, "firmware", item.spec.kind)


Values = Mapping[str, Mapping[str, float]]


def on_gains(fold: Fold, entry: Gains) -> None:
    """``gains``: a new set, or a name alone that returns to a set."""
    aircraft = fold.aircraft_of(entry)
    if aircraft is None:
        return
    known = aircraft.gain_sets.get(entry.name)
    values = _whole(fold, aircraft, entry)
    if known is None:
        if values is None:
            return
        _doubt_set(fold, aircraft, entry)
        aircraft.gain_sets[entry.name] = GainSet(
            **fold.at.stamp(),
            name=entry.name,
            values=values,
            base=entry.base,
            because=entry.because,
        )
    elif values is not None and values != known.values:
        fold.objections.object(
            f"gain set {quoted(entry.name)} written with other values on {fold.at.day}"
            f" than on {known.on}",
            entry.place("gains"),
            hint="give the new values a name of their own; with"
            f" {either('from:', f'--from {entry.name}')} what they do not name stays",
            also=(known.place,),
            about=aircraft.slug,
        )
    in_force = aircraft.gain_periods[-1].name if aircraft.gain_periods else None
    if in_force != entry.name:
        aircraft.gain_periods.append(
            GainsPeriod(
                **fold.at.stamp(),
                name=entry.name,
                because=entry.because,
            )
        )
        fold.changed(aircraft.slug)
        note_event(fold, aircraft, "gains")


def _whole(fold: Fold, aircraft: AircraftBuilder, entry: Gains) -> Values | None:
    """All values of the set as written here; None where it is a name alone, or can't be known.

    What an axis of a set with ``from`` leaves out is that of the base too.
    """
    if entry.base is None:
        if not entry.values and entry.name not in aircraft.gain_sets:
            _object_unknown(fold, aircraft, entry.name, entry.place("gains"), "returned to")
        return entry.values or None
    base = aircraft.gain_sets.get(entry.base)
    if base is None:
        _object_unknown(fold, aircraft, entry.base, entry.place("from"), "used as a base")
        return entry.values or None
    return {
        axis: {**base.values.get(axis, {}), **entry.values.get(axis, {})}
        for axis in dict.fromkeys((*base.values, *entry.values))
    }


def _doubt_set(fold: Fold, aircraft: AircraftBuilder, entry: Gains) -> None:
    """A new set with the name of another but for capitals, or without terms of the one before."""
    name = entry.name
    like = next((one for one in aircraft.gain_sets if one.casefold() == name.casefold()), None)
    in_force = aircraft.gain_periods[-1].name if aircraft.gain_periods else None
    before = aircraft.gain_sets.get(in_force or "")
    left = [
        f"{axis} {term}"
        for axis, terms in (before.values if before and entry.base is None else {}).items()
        for term in terms
        if term not in entry.values.get(axis, {})
    ]
    said = []
    if like is not None:
        said.append((f"there is a gain set {quoted(like)} already", "did you mean that?"))
    if before is not None and left:
        lacks = f"gain set {quoted(name)} has no {listed(left)}, which {quoted(before.name)} has"
        said.append(
            (lacks, f"write {either('from:', '--from')} {before.name} if they stay as they were")
        )
    for reason, hint in () if fold.sure else said:
        fold.objections.object(
            reason,
            entry.place("gains"),
            severity="warning",
            hint=f"{hint}; {SURE} if it is meant",
            about=aircraft.slug,
        )


def on_verdict(fold: Fold, entry: Verdict) -> None:
    """``verdict``: words on sets that were written before."""
    aircraft = fold.aircraft_of(entry)
    if aircraft is None:
        return
    for name, words in entry.verdicts.items():
        place = entry.place(f"verdict.{name}")
        if name not in aircraft.gain_sets:
            _object_unknown(fold, aircraft, name, place, "judged")
            continue
        aircraft.gain_verdicts.append(GainsVerdict(**fold.at.stamp(place), name=name, words=words))


def _object_unknown(
    fold: Fold, aircraft: AircraftBuilder, name: str, place: Place, done: str
) -> None:
    fold.objections.object(
        f"gain set {quoted(name)} {done} on {fold.at.day} before its values were written",
        place,
        hint="write it first: "
        + either(
            f"gains: {name} with values:",
            f"enter gains {aircraft.slug} {name} roll.p=38",
        ),
        about=aircraft.slug,
    )
