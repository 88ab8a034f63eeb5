"""An entry in full: what its one line leaves out, as labelled details and rows.

The one line is that of ``entries``. Nothing blank is told: what a projection took away, or
what nobody wrote, has no detail at all.
"""

import datetime
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, Literal

from buildbook.basis import amounts
from buildbook.records import entries
from buildbook.records.aircraft import Bounds, Radio, Run, StationPlan
from buildbook.records.entries import Alteration, AnyEntry
from buildbook.records.keys.quantities import BalancePoint
from buildbook.report.history import FlightDone
from buildbook.words.logbook.entries import MOST_SLOTS
from buildbook.words.names import kind_word
from buildbook.words.surfaces import surface_words

Said = tuple[str, str]
"""A label and what stands beside it."""


def alteration_details(entry: Alteration) -> Iterator[Said]:
    """Each thing that was changed, in the order of the keys of the file."""
    for name, plan in entry.stations.items():
        yield f"station {name}", station_words(plan)
    if entry.receiver:
        yield "receiver leads", ", ".join(entry.receiver)
    if entry.sockets:
        yield "receiver sockets", ", ".join(entry.sockets)
    if entry.radio:
        yield "radio", radio_words(entry.radio)
    for name, surface in entry.surfaces.items():
        yield f"surface {name}", surface_words(surface)
    for run in entry.wiring:
        yield f"wire {run.label}", run_words(run)
    for name, at in entry.positions.items():
        yield f"place of {name}", place_words(at)
    for sundry in entry.sundries:
        yield "sundry", f"{sundry.what}, {amounts.mass(sundry.mass_kg)}"
    if entry.bounds:
        yield "limits", bounds_words(entry.bounds)
    if entry.status:
        yield "status", entry.status
    if entry.mass_kg is not None:
        yield "mass", f"{'+' if entry.mass_kg > 0 else ''}{amounts.mass(entry.mass_kg)}"
    if entry.at is not None:
        yield "at", place_words(entry.at)


def station_words(plan: StationPlan) -> str:
    """``spin ccw, output 3``."""
    said = (
        f"spin {plan.spin}" if plan.spin else "",
        f"output {plan.output}" if plan.output is not None else "",
        place_words(plan.at) if plan.at else "",
    )
    return ", ".join(word for word in said if word)


def place_words(at: BalancePoint) -> str:
    """``10 mm forward, 5 mm left, 25 mm down``; what is zero or not known is left out."""
    ends = (("forward", "aft"), ("right", "left"), ("down", "up"))
    said = [
        f"{amounts.length(abs(length_m))} {ahead if length_m > 0 else behind}"
        for length_m, (ahead, behind) in zip(at, ends, strict=True)
        if length_m
    ]
    return ", ".join(said) or "at the reference point"


def run_ends(run: Run) -> str:
    """``distribution to each ESC``."""
    ends = (" ".join(map(kind_word, end.split())) for end in (run.start, run.end))
    return " to ".join(ends)


def run_words(run: Run) -> str:
    """``14 AWG, 140 mm, bullet 4 mm``."""
    said = (
        run.wire.written if run.wire else "",
        amounts.length(run.length_m) if run.length_m is not None else "",
        run.plug or "",
    )
    return ", ".join(word for word in said if word) or "as recorded"


def radio_words(radio: Radio) -> str:
    """``memory 4, mode 2, rudder reversed, …``."""
    said = [
        f"memory {radio.memory}" if radio.memory else "",
        f"mode {radio.mode}" if radio.mode else "",
        f"transmitter {radio.transmitter}" if radio.transmitter else "",
        f"{amounts.listed(radio.reversed)} reversed" if radio.reversed else "",
        f"throttle cut: {radio.throttle_cut}" if radio.throttle_cut else "",
    ]
    said += [f"failsafe {name}: {does}" for name, does in radio.failsafe.items()]
    said += [
        f"{name} switch {', '.join(f'{at}: {does}' for at, does in ends.items())}"
        for name, ends in radio.switches.items()
    ]
    return "; ".join(word for word in said if word)


def bounds_words(bounds: Bounds) -> str:
    """``at most 1800 g, balance 20 % to 33 % of the chord``."""
    said = []
    if bounds.max_mass_kg is not None:
        said.append(f"at most {amounts.mass(bounds.max_mass_kg)}")
    if bounds.forward_cg_share is not None and bounds.aft_cg_share is not None:
        said.append(
            f"balance {amounts.share(bounds.forward_cg_share)} to "
            f"{amounts.share(bounds.aft_cg_share)} of the chord"
        )
    if bounds.forward_cg_m is not None and bounds.aft_cg_m is not None:
        said.append(
            f"balance {amounts.length(bounds.forward_cg_m)} to "
            f"{amounts.length(bounds.aft_cg_m)} forward of the reference point"
        )
    return ", ".join(said)


Detail = tuple[str, str]
"""A label and what stands beside it."""

Row = tuple[str, ...]


def details_of(
    entry: AnyEntry,
    day: Callable[[datetime.date], str],
    flown: FlightDone | None = None,
) -> tuple[Detail, ...]:
    """Labelled details. flown: what the hangar knows of the flight beyond its own words."""
    tell = _DETAILS.get(type(entry))
    found = tuple(tell(entry)) if tell else ()
    if isinstance(entry, entries.Defect) and entry.deferred_until and entry.deferred_until.on:
        found += (("can wait until", day(entry.deferred_until.on)),)
    if flown is not None and flown.gains:
        found += (("gain set flown", flown.gains),)
    if flown is not None and flown.firmware:
        versions = (f"{tag} {version}" for tag, version in flown.firmware.items())
        found += (("firmware", ", ".join(versions)),)
    return tuple((label, words) for label, words in found if words)


def flight_lines(entry: AnyEntry) -> tuple[str, ...]:
    """The flights of an entry that holds several, one line each; else nothing."""
    if not isinstance(entry, entries.Flight) or len(entry.rows) < 2:
        return ()
    return tuple(_flight_line(row) for row in entry.rows)


def _flight_line(row: entries.FlightRow) -> str:
    said = [amounts.duration(row.duration_s)]
    said += [f"with {amounts.listed(row.packs)}"] if row.packs else []
    said += [f"{amounts.charge(row.used_ah)} used"] if row.used_ah is not None else []
    said += {"normal": [], "hard": ["hard landing"], "crash": ["crash"]}[row.landing]
    return ", ".join(said)


def gain_table(entry: AnyEntry) -> tuple[Row, tuple[Row, ...]] | None:
    """Columns and rows of the values written in a gains entry; None where none were."""
    if not isinstance(entry, entries.Gains) or not entry.values:
        return None
    return gain_rows(entry.values)


def gain_rows(values: Mapping[str, Mapping[str, float]]) -> tuple[Row, tuple[Row, ...]]:
    """Axes as rows, terms as columns, in the order in which they were written."""
    terms = tuple(dict.fromkeys(term for axis in values.values() for term in axis))
    rows = tuple(
        (axis, *(f"{given[term]:g}" if term in given else "" for term in terms))
        for axis, given in values.items()
    )
    return ("axis", *terms), rows


def stations_of(entry: AnyEntry) -> tuple[str, ...]:
    """The stations that an entry names."""
    found: list[str] = []
    if isinstance(entry, entries.Fit):
        found += [slot.station for slot in entry.slots]
    if isinstance(entry, entries.Alteration):
        found += entry.stations
    if isinstance(entry, entries.Defect | entries.Setting):
        named = entry.station if isinstance(entry, entries.Defect) else entry.of
        found += [named] if named else []
    found += getattr(entry, "stations", ()) if isinstance(entry, entries.Check) else ()
    found += getattr(entry, "touched", ())
    return tuple(dict.fromkeys(found))


def tags_of(entry: AnyEntry, known: Iterable[str] = ()) -> tuple[str, ...]:
    """The items that an entry names in its keys; ``known`` are the tags of the hangar."""
    found: list[str] = []
    match entry:
        case entries.Fit():
            found += [tag for slot in entry.slots for tag in slot.tags] + list(entry.instead_of)
        case entries.Remove() | entries.Inspection() | entries.Overhaul():
            found += entry.tags
        case entries.StateChange():
            found += entry.states
        case entries.Flight():
            found += [tag for row in entry.rows for tag in row.packs]
        case entries.Charge():
            found += entry.packs
        case entries.Capacity() | entries.Weigh():
            found += [entry.pack] if entry.pack else []
        case entries.Firmware():
            found += entry.versions
        case entries.Defect() | entries.Note():
            found += [entry.item] if entry.item else []
        case entries.Incident() | entries.Repair():
            found += entry.touched
        case entries.Setting():
            found += [entry.of] if entry.of else []
        case _:
            pass
    allowed = set(known)
    return tuple(tag for tag in dict.fromkeys(found) if tag in allowed)


def _fit(entry: entries.Fit) -> Iterator[Detail]:
    stations: dict[str, list[str]] = {}
    for slot in entry.slots:
        kind = kind_word(slot.kind)
        stations.setdefault(slot.station, []).append(f"{kind} {amounts.listed(slot.tags)}")
    if len(stations) > MOST_SLOTS:
        for station, parts in stations.items():
            yield station, ", ".join(parts)
    for tag, state in entry.instead_of.items():
        yield f"{tag} came out", state
    for tag, served in entry.serves.items():
        yield f"{tag} serves", amounts.listed(served)


def _remove(entry: entries.Remove) -> Iterator[Detail]:
    if entry.state:
        yield "state", entry.state


def _flight(entry: entries.Flight) -> Iterator[Detail]:
    if len(entry.rows) == 1 and entry.rows[0].used_ah is not None:
        yield "used", amounts.charge(entry.rows[0].used_ah)
    volts = entry.volts
    if volts is not None:
        told = (("before", volts.before_v), ("lowest", volts.lowest_v), ("after", volts.after_v))
        said = (f"{amounts.voltage(value)} {when}" for when, value in told if value is not None)
        yield "pack voltage", ", ".join(said)
    if entry.motor_run_s is not None:
        yield "motor ran", amounts.duration(entry.motor_run_s)
    if entry.payload_kg is not None:
        yield "payload", amounts.mass(entry.payload_kg)
    if entry.temperature_k is not None:
        yield "temperature", amounts.temperature(entry.temperature_k)
    yield "wind", entry.wind or ""
    yield "place", entry.where or ""
    yield "preflight", "not recorded" if entry.preflight is None else entry.preflight
    yield "noticed", ", ".join(entry.noticed)
    yield "handling", entry.handling or ""
    yield "timed", {"armed": "while armed", "airborne": ""}.get(entry.timing or "", "")


def by_cell(values: Iterable[float], unit: Literal["mΩ", "V"]) -> str:
    """``8.1, 8.3, 8.0 mΩ``, ``4.18, 4.19 V``: one unit, and as many decimals of each.

    Hundredths of a milliohm only where one was read so.
    """
    found = [value * 1000 if unit == "mΩ" else value for value in values]
    tenths = unit == "mΩ" and all(abs(round(one, 1) - one) < 0.005 for one in found)
    said = ", ".join(amounts.fixed(one, 1 if tenths else 2) for one in found)
    return f"{said} {unit}" if said else ""


def _charge(entry: entries.Charge) -> Iterator[Detail]:
    yield "resistance by cell", by_cell(entry.resistance_ohm, "mΩ")
    yield "resting by cell", by_cell(entry.resting_v, "V")
    if entry.temperature_k is not None:
        yield "temperature", amounts.temperature(entry.temperature_k)


def _capacity(entry: entries.Capacity) -> Iterator[Detail]:
    if entry.current_a is not None:
        yield "at", amounts.current(entry.current_a)
    if entry.down_to_v is not None:
        yield "down to", amounts.voltage(entry.down_to_v)
    if entry.temperature_k is not None:
        yield "temperature", amounts.temperature(entry.temperature_k)


def _check(entry: entries.Check) -> Iterator[Detail]:
    said = (f"{name.replace('_', ' ')} {value}" for name, value in entry.readings.items())
    yield "readings", "; ".join(said)
    yield "surface", entry.surface or ""


def _because(entry: Any) -> Iterator[Detail]:
    yield "because", entry.because or ""


def _weigh(entry: entries.Weigh) -> Iterator[Detail]:
    yield "without", amounts.listed(entry.without) if entry.without else ""
    if entry.cg_m is not None:
        yield "balance point", place_words(entry.cg_m)
    said = (f"{name} {amounts.mass(mass_kg)}" for name, mass_kg in entry.scales_kg.items())
    yield "scales", ", ".join(said)


_HARM = {True: "yes", False: "no", None: ""}


def _incident(entry: entries.Incident) -> Iterator[Detail]:
    yield "severity", entry.severity
    yield "touched", amounts.listed(entry.touched) if entry.touched else "everything"
    yield "cause", entry.cause or ""
    yield "injury", _HARM[entry.injury]
    yield "other people’s property", _HARM[entry.property]
    yield "to be reported", entry.reportable or ""
    if entry.injury and entry.reportable is None:
        yield "reporting", "check your reporting rules; one national rule gives 10 days"


def _repair(entry: entries.Repair) -> Iterator[Detail]:
    yield "touched", amounts.listed(entry.touched) if entry.touched else ""


_SEVERITY = {"grounds": "grounds the aircraft", "defer": "can wait", "note": "noted"}


def _defect(entry: entries.Defect) -> Iterator[Detail]:
    yield "item", entry.item or ""
    yield "station", entry.station or ""
    yield "severity", _SEVERITY.get(entry.severity, "")
    yield "inoperative", entry.inoperative or ""
    yield "required", "yes" if entry.required else ""
    yield "placard", entry.placard or ""
    until = entry.deferred_until
    if until is not None and until.flights is not None:
        yield "can wait for", amounts.count("flight", until.flights)
    if until is not None and until.duration_s is not None:
        yield "can wait for", f"{amounts.hours(until.duration_s)} of flying"


def _inspection(entry: entries.Inspection) -> Iterator[Detail]:
    yield from _because(entry)
    yield "deferred defects looked at", ", ".join(entry.addressed)


def inoperative_words(defect: entries.Defect) -> str:
    """``GPS silent (deactivated): no position hold``; the placard as written at it."""
    what = defect.words or "something that does not work"
    return f"{what} ({defect.inoperative}); {_placard(defect)}"


def _placard(defect: entries.Defect) -> str:
    return f"placard: {defect.placard}" if defect.placard else "placard not recorded"


_DETAILS: Mapping[type, Callable[[Any], Iterator[Detail]]] = {
    entries.Fit: _fit,
    entries.Remove: _remove,
    entries.Flight: _flight,
    entries.Charge: _charge,
    entries.Capacity: _capacity,
    entries.Check: _check,
    entries.Setting: _because,
    entries.Gains: _because,
    entries.Weigh: _weigh,
    entries.Incident: _incident,
    entries.Inspection: _inspection,
    entries.Repair: _repair,
    entries.Defect: _defect,
    entries.Note: lambda entry: iter([("item", entry.item or "")]),
    entries.Alteration: alteration_details,
}
