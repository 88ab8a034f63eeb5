"""What to write next of an aircraft that is being built."""

from collections.abc import Iterable, Iterator
from itertools import chain
from typing import Any

from buildbook.records.layouts import LAYOUTS
from buildbook.records.parts import DRIVE
from buildbook.records.programmes import STAGES, stage_of
from buildbook.report.next_step import Lack, NextStep
from buildbook.report.state import AircraftNow, Hangar
from buildbook.reporting.upkeep.set_up import open_checks
from buildbook.reporting.whole import Whole

_UNDER_POWER = tuple(kind for kind in DRIVE if kind != "propeller")
"""What sits at a motor station while its motor is run up the first time."""


def next_step(whole: Whole, slug: str) -> NextStep | None:
    """The first thing that its records lack; None of an aircraft that isn't being built."""
    hangar = whole.hangar
    aircraft = hangar.aircraft[slug]
    if aircraft.status != "building":
        return None
    steps = chain(
        _described(hangar, aircraft), _set_up(whole, aircraft), _made_up(hangar, aircraft)
    )
    lack, more = next(steps, ("flying", {}))
    return _step(hangar, aircraft, lack, more)


def _step(hangar: Hangar, aircraft: AircraftNow, lack: Lack, more: dict[str, Any]) -> NextStep:
    home = f"aircraft/{aircraft.slug}"
    asked = "battery" if lack == "pack" else next(iter(more.get("slots", ())), None)
    files: dict[Lack, str] = {"parts": "parts/items.yaml", "pack": "parts/items.yaml"}
    if lack in ("size", "stations", "leads", "sockets", "surfaces", "failsafe"):
        files[lack] = f"{home}/aircraft.yaml"
    return NextStep(
        slug=aircraft.slug,
        name=aircraft.record.aircraft,
        kind=aircraft.record.kind,
        lack=lack,
        file=files.get(lack, f"{home}/logbook.yaml"),
        day=hangar.as_of,
        specs=tuple(spec.spec for spec in hangar.ledger.specs.values() if spec.kind == asked),
        motor=aircraft.record.has_motor,
        placed=aircraft.record.layout == "custom",
        **more,
    )


def _described(hangar: Hangar, aircraft: AircraftNow) -> Iterator[tuple[Lack, dict[str, Any]]]:
    if _lacks_size(aircraft):
        yield "size", {}
    if _is_multirotor(aircraft) and not aircraft.motor_stations:
        yield "stations", {}
    stations = _motors(aircraft)
    empty = [(station, _lacking(aircraft, station, _UNDER_POWER)) for station in stations]
    shared = _shared_esc(aircraft, stations)
    for kind in _UNDER_POWER:
        if kind != "esc" or shared is None:
            yield from _unrecorded(hangar, kind, empty)
    without_esc = [station for station, slots in empty if slots == ("esc",)]
    if shared is not None and without_esc:
        yield "serves", {"slots": (shared, *without_esc)}
    for station, slots in empty:
        if slots:
            yield "fit", {"station": station, "slots": slots}
    yield from _aboard(hangar, aircraft)
    yield from _connected(aircraft, stations)
    if not any(item.is_pack for item in hangar.items.values()) and _tracks(aircraft, "battery"):
        yield "pack", {}


def _connected(
    aircraft: AircraftNow, stations: Iterable[str]
) -> Iterator[tuple[Lack, dict[str, Any]]]:
    """Spins and outputs, and what the receiver does."""
    for station in stations:
        plan = aircraft.stations.get(station)
        if plan is None or plan.spin is None or (_is_multirotor(aircraft) and plan.output is None):
            yield "stations", {"station": station}
    if not _is_multirotor(aircraft) and not _has(aircraft, "controller"):
        if not (aircraft.sockets or aircraft.receiver):
            yield "sockets", {}
    elif not aircraft.receiver:
        yield "leads", {}
    if aircraft.radio is None or not aircraft.radio.failsafe:
        yield "failsafe", {}


def _motors(aircraft: AircraftNow) -> tuple[str, ...]:
    """The stations where a motor is asked for; of an aeroplane that names none yet the nose."""
    return aircraft.motor_stations or (("nose",) if aircraft.record.has_motor else ())


def _tracks(aircraft: AircraftNow, kind: str) -> bool:
    """Whether a kind of part is asked for: its keeper may leave it untagged, or weigh it apart."""
    record = aircraft.record
    return kind not in (*record.not_tracked, *(sundry.what for sundry in aircraft.sundries))


def _aboard(hangar: Hangar, aircraft: AircraftNow) -> Iterator[tuple[Lack, dict[str, Any]]]:
    """What sits on it once: of a multirotor its frame and controller too; then what steers it."""
    once = ("frame", "controller", "receiver") if _is_multirotor(aircraft) else ("receiver",)
    lacks = tuple(kind for kind in once if _tracks(aircraft, kind) and not _has(aircraft, kind))
    at = "centre" if _is_multirotor(aircraft) else "fuselage"
    for kind in lacks:
        yield from _unrecorded(hangar, kind, [(at, lacks)])
    if lacks:
        yield "fit", {"station": at, "slots": lacks}
    if not _is_multirotor(aircraft) and _tracks(aircraft, "surfaces"):
        yield from _steered(hangar, aircraft)
    elif _has_tail_servo(aircraft) and _tracks(aircraft, "servo") and not _has(aircraft, "servo"):
        yield from _unrecorded(hangar, "servo", [("rear", ("servo",))])
        yield "fit", {"station": "rear", "slots": ("servo",)}


def _steered(hangar: Hangar, aircraft: AircraftNow) -> Iterator[tuple[Lack, dict[str, Any]]]:
    """The surfaces, the servo of each, and that these are fitted."""
    surfaces, servos = aircraft.surfaces, _tracks(aircraft, "servo")
    if servos and not any(item.spec.kind == "servo" for item in hangar.items.values()):
        yield "parts", {"slots": ("servo",)}
    if not surfaces:
        yield "surfaces", {"slots": ("servo",) if servos else ()}
    for name, surface in surfaces.items():
        if servos and not surface.servos:
            yield "surfaces", {"station": name, "slots": ("servo",)}
    seated = {fitted.tag for fitted in aircraft.items()}
    named = [tag for surface in surfaces.values() for tag in surface.servos]
    loose = tuple(tag for tag in dict.fromkeys(named) if tag not in seated)
    if loose:
        yield "fit", {"slots": ("servo",), "tags": loose}


def _has_tail_servo(aircraft: AircraftNow) -> bool:
    layout = LAYOUTS.get(aircraft.record.layout)
    return layout is not None and layout.tail_servo


def _made_up(hangar: Hangar, aircraft: AircraftNow) -> Iterator[tuple[Lack, dict[str, Any]]]:
    """What comes once the motors were run without propellers: these, and the scales."""
    stations = _motors(aircraft)
    empty = [(station, _lacking(aircraft, station, ("propeller",))) for station in stations]
    yield from _unrecorded(hangar, "propeller", empty)
    for station, slots in empty:
        if slots:
            yield "fit", {"station": station, "slots": slots}
    if not aircraft.weighings:
        yield "weighing", {}


def _lacking(aircraft: AircraftNow, station: str, kinds: Iterable[str]) -> tuple[str, ...]:
    return tuple(kind for kind in kinds if aircraft.at(station, kind) is None)


def _has(aircraft: AircraftNow, kind: str) -> bool:
    return any(fitted.kind == kind for fitted in aircraft.items())


def _shared_esc(aircraft: AircraftNow, stations: Iterable[str]) -> str | None:
    """The tag of an ESC that sits at no motor, and of which nothing says what it serves."""
    for fitted in aircraft.items():
        apart = fitted.kind == "esc" and fitted.station not in stations
        if apart and not aircraft.serves.get(fitted.tag):
            return fitted.tag
    return None


def _lacks_size(aircraft: AircraftNow) -> bool:
    record = aircraft.record
    layout = LAYOUTS.get(record.layout)
    if _is_multirotor(aircraft):
        return layout is not None and not layout.free and record.diagonal_m is None
    return record.wing is None or record.wing.span_m is None


def _is_multirotor(aircraft: AircraftNow) -> bool:
    return aircraft.record.kind == "multirotor"


def _unrecorded(
    hangar: Hangar, kind: str, empty: Iterable[tuple[str, tuple[str, ...]]]
) -> Iterator[tuple[Lack, dict[str, Any]]]:
    """The kind of part that a station lacks, where no such part sits nowhere."""
    station = next((station for station, slots in empty if kind in slots), None)
    if station is not None and not any(
        item.spec.kind == kind and item.fitted is None and item.state.state == "serviceable"
        for item in hangar.items.values()
    ):
        yield "parts", {"station": station, "slots": (kind,)}


def _set_up(whole: Whole, aircraft: AircraftNow) -> Iterator[tuple[Lack, dict[str, Any]]]:
    """The first check that is open, in the order of doing; propellers go on when theirs comes."""
    rules = open_checks(whole, aircraft.slug)
    if rules:
        in_order = sorted(rules, key=lambda rule: STAGES.index(stage_of(rule)))
        names = list(dict.fromkeys(rule.check for rule in in_order))
        first = in_order[0]
        if STAGES.index(stage_of(first)) >= STAGES.index("propellers on"):
            yield from _made_up(whole.hangar, aircraft)
        yield "check", {"check": first, "left": len(names), "names": tuple(names)}
