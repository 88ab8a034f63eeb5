"""Values of a spec or a plan that cannot be beside what they are fitted with: a slip of the pen.

Each is held against its neighbours, far outside what is built. Thresholds are common practice, no
source, but for the speed of sound.
"""

from collections.abc import Iterator
from math import pi

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.records.aircraft import LEFT
from buildbook.records.parts import Spec
from buildbook.records.surfaces import throw_read
from buildbook.report.state import AircraftNow, Hangar, ItemNow

SLOWEST_TIP, FASTEST_TIP = 20.0, 500.0
"""m/s at the tip of a propeller, by speed constant and nominal volts, without its load: with it
about a quarter less, and past the speed of sound (343 m/s) nothing is gained."""

CELL_V = 3.7

POWER_COEFFICIENT, LOADED = 0.05, 0.75
"""Of a usual propeller at rest, and the share of its speed that a loaded motor keeps."""

AIR = 1.2
TIMES_RATED = 3.0
"""So many times its rating an ESC would carry by that: what is not known so well is far below."""

FARTHEST, NEAREST = 6.0, 1.0
"""Diagonals of a frame, in diameters of its propellers."""

LIGHTEST_BODY, HEAVIEST_PART = 0.03, 5.0
"""Of the mass of all other parts: a frame or wing lighter, any other part heavier."""

UNLIKE_SIDES = 0.1
"""So much of a throw its mirror image may differ."""

SURE = "correct it; else write sure: true in its spec"


def doubted_specs(hangar: Hangar) -> Iterator[Problem]:
    """Of what is fitted now, and not retired; each spec once."""
    told: set[str] = set()
    for aircraft in hangar.aircraft.values():
        if aircraft.status in LEFT:
            continue
        items = [hangar.items[one.tag] for one in aircraft.items() if one.tag in hangar.items]
        for spec, problem in (
            *_drives(hangar, aircraft),
            *_masses(aircraft, items),
            *_without_hand(aircraft, items),
        ):
            if spec.spec not in told and not spec.sure:
                told.add(spec.spec)
                yield problem
        yield from _diagonal(aircraft, items)
        yield from _sides(aircraft)


def _doubt(reason: str, place: Place, hint: str, aircraft: AircraftNow) -> Problem:
    return Problem(reason, place, "warning", hint, (), aircraft.slug)


def _cells(hangar: Hangar, aircraft: AircraftNow) -> list[int]:
    """Of the packs that it flew, else of those that flew nowhere."""
    packs = [one for one in hangar.items.values() if one.is_pack and one.spec.cells is not None]
    own = [one for one in packs if aircraft.slug in one.flown_on]
    new = [one for one in packs if not one.flown_on]
    return [one.spec.cells.series for one in own or new if one.spec.cells is not None]


def _drives(hangar: Hangar, aircraft: AircraftNow) -> Iterator[tuple[Spec, Problem]]:
    """Motor and propeller of a station by the speed of its tips; its ESC by the power for that."""
    counts = _cells(hangar, aircraft)
    for station in aircraft.motor_stations if counts else ():
        motor = hangar.item_at(aircraft, station, "motor")
        propeller = hangar.item_at(aircraft, station, "propeller")
        kv = None if motor is None else motor.spec.kv_rpm_v
        size = None if propeller is None else propeller.spec.size
        if motor is None or kv is None or size is None:
            continue
        slow, fast = (kv * CELL_V * count / 60 for count in (min(counts), max(counts)))
        tip = pi * size.diameter_m
        if not (tip * fast >= SLOWEST_TIP and tip * slow <= FASTEST_TIP):
            speed = round(tip * (slow if tip * slow > FASTEST_TIP else fast))
            disk = f"a propeller of {amounts.length(size.diameter_m)}"
            reason = f"{kv:g} rpm/V of {motor.spec.spec} would move the tips of {disk}"
            yield (
                motor.spec,
                _doubt(f"{reason} at {speed} m/s", motor.spec.place("kv"), SURE, aircraft),
            )
            continue
        yield from _overloaded(hangar, aircraft, station, slow, size.diameter_m, min(counts))


def _overloaded(
    hangar: Hangar,
    aircraft: AircraftNow,
    station: str,
    turns: float,
    diameter_m: float,
    cells: int,
) -> Iterator[tuple[Spec, Problem]]:
    esc = hangar.item_at(aircraft, station, "esc")
    rated_a = None if esc is None else esc.spec.continuous_current_a
    watts = POWER_COEFFICIENT * AIR * (LOADED * turns) ** 3 * diameter_m**5
    asked_a = watts / (CELL_V * cells)
    if esc is not None and rated_a is not None and asked_a > TIMES_RATED * rated_a:
        yield (
            esc.spec,
            _doubt(
                f"{esc.spec.spec} is rated {amounts.current(rated_a)}, where motor and propeller at"
                f" {station} ask for about {amounts.current(asked_a)} at full throttle",
                esc.spec.place("continuous_current"),
                SURE,
                aircraft,
            ),
        )


def _masses(aircraft: AircraftNow, items: list[ItemNow]) -> Iterator[tuple[Spec, Problem]]:
    known = [(item, item.mass_kg) for item in items if item.mass_kg]
    total_kg = sum(mass_kg for _, mass_kg in known)
    for item, mass_kg in known:
        rest_kg, spec = total_kg - mass_kg, item.spec
        light = spec.kind in ("frame", "wing") and mass_kg < LIGHTEST_BODY * rest_kg
        heavy = spec.kind not in ("frame", "wing", "battery") and mass_kg > HEAVIEST_PART * rest_kg
        if len(known) > 2 and (light or heavy):
            yield (
                spec,
                _doubt(
                    f"{item.tag} has {amounts.mass(mass_kg)}, all other parts of {aircraft.slug}"
                    f" together {amounts.mass(rest_kg)}",
                    spec.place("mass"),
                    f"g or kg, point or comma? {SURE}",
                    aircraft,
                ),
            )


def _without_hand(aircraft: AircraftNow, items: list[ItemNow]) -> Iterator[tuple[Spec, Problem]]:
    """Of some propellers of a multirotor, where those beside them have theirs."""
    propellers = [item for item in items if item.spec.kind == "propeller"]
    if not aircraft.hovers or all(one.spec.hand is None for one in propellers):
        return
    for item in propellers:
        if item.spec.hand is None:
            yield (
                item.spec,
                _doubt(
                    f"{item.spec.spec} has no hand, so nobody can say whether {item.tag} turns as"
                    " its motor does",
                    item.spec.place(),
                    "write hand: cw or hand: ccw, as seen from above",
                    aircraft,
                ),
            )


def _diagonal(aircraft: AircraftNow, items: list[ItemNow]) -> Iterator[Problem]:
    diagonal_m = aircraft.record.diagonal_m
    sizes = [item.spec.size.diameter_m for item in items if item.spec.size is not None]
    if diagonal_m is None or not sizes or not aircraft.hovers:
        return
    if not NEAREST * max(sizes) <= diagonal_m <= FARTHEST * max(sizes):
        yield _doubt(
            f"{aircraft.slug} measures {amounts.length(diagonal_m)} from motor to motor, with"
            f" propellers of {amounts.length(max(sizes))}",
            aircraft.record.place("diagonal"),
            "mm or cm? correct it, or the size of the propeller",
            aircraft,
        )


def _sides(aircraft: AircraftNow) -> Iterator[Problem]:
    """A surface on the left whose throw is not that of the one on the right."""
    for name, left in aircraft.surfaces.items():
        other = name.replace("left", "right")
        right = aircraft.surfaces.get(other) if other != name else None
        if right is None:
            continue
        for way in ("up", "down"):
            said: tuple[str | None, str | None] = getattr(left, way), getattr(right, way)
            if said[0] is None or said[1] is None:
                continue
            (one, unit), (two, unit_of_two) = throw_read(said[0]), throw_read(said[1])
            if unit == unit_of_two and round(abs(one - two) - UNLIKE_SIDES * max(one, two), 9) > 0:
                yield _doubt(
                    f"{name} of {aircraft.slug} goes {way} {said[0]}, {other} {said[1]}",
                    aircraft.places.get(f"surfaces.{other}", aircraft.record.place()),
                    "correct one of them; two sides that move apart roll or yaw it",
                    aircraft,
                )
