"""Specs, thrust tables, programmes and packs whose figures can hardly be meant.

Thresholds are common practice, no source, but for the ideal power: actuator disk theory.
"""

import datetime
import math
from bisect import bisect_left
from collections.abc import Iterator, Sequence

from buildbook.basis import amounts
from buildbook.basis.counting import UNITS, parts
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.propulsion.hover import hover_throttle
from buildbook.figures.laws.aero.hover import ideal_hover_power_w
from buildbook.records.ledger import BenchRow, BenchTable
from buildbook.records.parts import Spec
from buildbook.report.figure import Figure
from buildbook.report.history import FlightDone
from buildbook.report.packs.charge_tally import share_of_flight_ah
from buildbook.report.state import AircraftNow, Hangar, ItemNow

AIR_KG_M3 = 1.225
"""Sea level, 15 °C: ISO 2533."""

LEAST_HOVER = 0.05
TIMES_LIMIT = 10
MOST_OF_CHARGE = 1.05
"""Counters err by so much."""


def doubted_parts(hangar: Hangar) -> Iterator[Problem]:
    """Each doubt once."""
    for spec in hangar.ledger.specs.values():
        yield from _burst(spec)
    yield from _benches(hangar)
    yield from _tolerances(hangar)
    sure = frozenset(entry.uid for entry in hangar.ledger.entries if entry.sure)
    for aircraft in hangar.aircraft.values():
        yield from _balance(aircraft, sure)
        yield from _hover(hangar, aircraft)
    for item in hangar.items.values():
        if item.is_pack:
            yield from _one_charge(item, sure)


def _doubt(reason: str, place: Place, hint: str, about: str | None = None) -> Problem:
    return Problem(reason, place, "warning", hint, (), about)


def _burst(spec: Spec) -> Iterator[Problem]:
    most, steady = spec.burst_current_a, spec.continuous_current_a
    if most is not None and steady is not None and round(most, 6) < round(steady, 6):
        yield _doubt(
            f"burst current {amounts.current(most)} of {spec.spec} is less than the continuous"
            f" {amounts.current(steady)}",
            spec.place("burst_current"),
            "exchanged? correct one of them",
        )


def _benches(hangar: Hangar) -> Iterator[Problem]:
    for spec in hangar.ledger.specs.values():
        table = None if spec.bench is None else hangar.ledger.bench.get(spec.bench)
        if table is not None:
            yield from _columns(spec, table)
            yield from _disk(hangar, spec, table)


def _columns(spec: Spec, table: BenchTable) -> Iterator[Problem]:
    first = Place(table.file, 1)
    throttles = [row.throttle_share for row in table.rows if row.throttle_share is not None]
    if throttles and 0 < max(throttles) <= 0.01:
        yield _doubt(
            f"throttle_% of {table.file} is never above 1", first, "a share? write 45 for 45 %"
        )
    most, drawn = spec.max_current_a, [row.current_a or 0.0 for row in table.rows]
    if most and max(drawn, default=0.0) >= TIMES_LIMIT * most:
        yield _doubt(
            f"current_A of {table.file} goes to {amounts.current(max(drawn))}, {spec.spec} takes"
            f" {amounts.current(most)}",
            first,
            "mA or tenths? correct the column or the limit",
        )


def _disk(hangar: Hangar, spec: Spec, table: BenchTable) -> Iterator[Problem]:
    """The largest propeller that turns on such a motor needs the least power."""
    diameters = [
        propeller.spec.size.diameter_m
        for aircraft in hangar.aircraft.values()
        for station in aircraft.motor_stations
        if (motor := hangar.item_at(aircraft, station, "motor")) is not None
        and motor.spec.spec == spec.spec
        and (propeller := hangar.item_at(aircraft, station, "propeller")) is not None
        and propeller.spec.size is not None
    ]
    if not diameters:
        return
    area_m2 = math.pi * max(diameters) ** 2 / 4
    wrong = [row for row in table.rows if _is_too_good(row, area_m2)]
    if wrong:
        row, more = wrong[0], len(wrong) - 1
        power_w = (row.voltage_v or 0.0) * (row.current_a or 0.0)
        yield _doubt(
            f"{power_w:.0f} W of {table.file} are less than any propeller of that size needs for"
            f" its thrust{f', and {more} more rows' if more else ''}",
            Place(table.file, row.line),
            "thrust, current or voltage in another unit? correct the column",
        )


def _is_too_good(row: BenchRow, area_m2: float) -> bool:
    if not (row.voltage_v and row.current_a and row.thrust_n):
        return False
    ideal_w = ideal_hover_power_w(row.thrust_n, area_m2, AIR_KG_M3)
    return row.voltage_v * row.current_a < ideal_w


def _tolerances(hangar: Hangar) -> Iterator[Problem]:
    for name, programme in sorted(hangar.ledger.programmes.items()):
        for task in () if programme.built_in else programme.tasks:
            every = parts(task.every)
            for unit, size in parts(task.tolerance).items():
                if unit in every and size > every[unit]:
                    yield _doubt(
                        f"tolerance of '{task.task}' in '{name}' is above its interval:"
                        f" {_size(unit, size)} of {_size(unit, every[unit])}",
                        task.place(f"tolerance.{unit}"),
                        "a tolerance is what may be added to the interval",
                    )


def _size(unit: str, size: float) -> str:
    return f"{UNITS[unit].shown(UNITS[unit].in_ticks(size)):g}"


def _balance(aircraft: AircraftNow, sure: frozenset[str]) -> Iterator[Problem]:
    """A balance point farther from the reference point than the aircraft reaches."""
    wing = aircraft.record.wing
    reach_m = aircraft.record.diagonal_m if wing is None else wing.span_m
    if reach_m is None:
        return
    for weighing in aircraft.weighings:
        at = weighing.cg_m
        if weighing.uid not in sure and at is not None and max(abs(one) for one in at) > reach_m:
            yield _doubt(
                f"the balance point of {weighing.on} lies outside {aircraft.slug}",
                weighing.place,
                "mm or cm? forward, right, down of the reference point",
                aircraft.slug,
            )


def _hover(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Problem]:
    if aircraft.status != "flying" or aircraft.record.kind != "multirotor":
        return
    for said in hover_throttle(Craft(hangar, aircraft.slug)):
        if isinstance(said, Figure) and said.value is not None and said.value < LEAST_HOVER:
            yield _doubt(
                f"{aircraft.slug} would hover at {amounts.share(said.value)} throttle",
                aircraft.record.place(),
                "look at its mass, the thrust table and the cells of its pack",
                aircraft.slug,
            )


def _one_charge(pack: ItemNow, sure: frozenset[str]) -> Iterator[Problem]:
    """Flights between two charges that used more than the pack holds: a charge is not written."""
    held_ah = pack.spec.capacity_ah
    if not held_ah:
        return
    charged = sorted(one.seq for one in pack.charges)
    by_charge: dict[int, list[FlightDone]] = {}
    for flight in pack.flights:
        by_charge.setdefault(bisect_left(charged, flight.seq), []).append(flight)
    for number, flown in by_charge.items():
        ended_on = None if number == len(charged) else _day_of(pack, charged[number])
        known = ended_on != flown[-1].on and flown[-1].uid not in sure
        if number and known:  # of one day nobody knows the order
            yield from _too_much(pack, held_ah, flown)


def _day_of(pack: ItemNow, seq: int) -> datetime.date | None:
    return next((one.on for one in pack.charges if one.seq == seq), None)


def _too_much(pack: ItemNow, held_ah: float, flown: Sequence[FlightDone]) -> Iterator[Problem]:
    used_ah = sum(share_of_flight_ah(one) or 0.0 for one in flown)
    last = flown[-1]
    if len(flown) > 1 and round(used_ah / held_ah, 6) > MOST_OF_CHARGE:
        yield _doubt(
            f"{len(flown)} flights on one charge of {pack.tag} used {amounts.charge(used_ah)},"
            f" though rated {amounts.charge(held_ah)}",
            last.place,
            "write the charge between them, or another pack",
            last.aircraft,
        )
