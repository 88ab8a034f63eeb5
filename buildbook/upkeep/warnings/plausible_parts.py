"""Specs, thrust tables, programmes and packs whose figures can hardly be right.

Thresholds are common practice, no source, but for the ideal power: actuator disk theory.
"""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from math import inf

from buildbook.basis import amounts
from buildbook.basis.counting import UNITS, parts
from buildbook.basis.place import Place
from buildbook.basis.problems import MEANT, Problem
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, number
from buildbook.figures.answers.propulsion.hover import hover_throttle_with
from buildbook.figures.answers.propulsion.run_margins import (
    is_too_thin,
    wanted_copper,
    wire_margin,
)
from buildbook.figures.answers.working import attempt
from buildbook.hangar.packs.doubts import MOST_USED
from buildbook.hangar.packs.limits import BEARS_V, holds_impossibly, millivolts, too_much_held
from buildbook.records.aircraft import LEFT
from buildbook.records.entries import Charge
from buildbook.records.parts import DRIVE, GONE, Spec
from buildbook.report.figure import Figure
from buildbook.report.history import ChargeDone, FlightDone
from buildbook.report.packs.charge_tally import in_best_order, share_of_flight_ah
from buildbook.report.state import AircraftNow, Hangar, ItemNow

LEAST_HOVER = 0.05


def doubted_parts(
    hangar: Hangar, sure: frozenset[str], craft_of: Callable[[str], Craft] | None = None
) -> Iterator[Problem]:
    """Each doubt once; an entry that is sure, by its uid, is left out.

    craft_of: gives what was gathered of an aircraft, where others ask it too.
    """
    craft_of = craft_of or partial(Craft, hangar)
    for spec in hangar.ledger.specs.values():
        if not spec.sure:
            yield from _burst(spec)
            yield from _cut_off(spec)
    if hangar.ledger.bench:
        yield from _benches(hangar)
    yield from _tolerances(hangar)
    for aircraft in hangar.aircraft.values():
        yield from _balance(craft_of, aircraft, sure)
        yield from _hover(craft_of, aircraft)
        yield from _thin_runs(craft_of, aircraft)
        yield from _gone_servos(hangar, aircraft)
    told: set[str] = set()
    for item in hangar.items.values():
        if item.is_pack:
            yield from _one_charge(item, sure)
            if item.spec.spec not in told and holds_impossibly(item.spec, item.mass_kg):
                told.add(item.spec.spec)
                yield _doubt(
                    f"capacity of {item.spec.spec} is {too_much_held(item.spec, item.mass_kg)}",
                    item.spec.place("capacity"),
                    "mAh or Ah? correct it, or the mass; else write sure: true in its spec",
                )
        elif item.spec.kind in DRIVE:
            yield from _life_of_airframe(hangar, item)
    yield from _charged_twice(hangar, sure)


def _doubt(
    reason: str, place: Place, hint: str, about: str | None = None, once: str | None = None
) -> Problem:
    """once: the same where the reason names an amount that each flight moves."""
    return Problem(reason, place, "warning", hint, (), about, once=once)


def _gone_servos(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Problem]:
    """Surfaces that name a servo which is out of use for good."""
    if aircraft.status in LEFT:
        return
    for name, surface in aircraft.surfaces.items():
        for tag in surface.servos:
            servo = hangar.items.get(tag)
            if servo is not None and servo.state.state in GONE:
                since = f" since {servo.state.on}" if servo.state.on else ""
                yield _doubt(
                    f"{name} of {aircraft.slug} is driven by {tag}, which is"
                    f" {servo.state.state}{since}",
                    aircraft.places.get(f"surfaces.{name}", aircraft.record.place()),
                    "name the servo that drives it now",
                    aircraft.slug,
                )


def _burst(spec: Spec) -> Iterator[Problem]:
    most, steady = spec.burst_current_a, spec.continuous_current_a
    if most is not None and steady is not None and round(most, 6) < round(steady, 6):
        yield _doubt(
            f"burst current {amounts.current(most)} of {spec.spec} is less than the continuous"
            f" {amounts.current(steady)}",
            spec.place("burst_current"),
            "swapped? correct one of them",
        )


def _cut_off(spec: Spec) -> Iterator[Problem]:
    """A cut-off of a pack that no cell of its chemistry bears, where its keeper gives no lowest."""
    cutoff_v, bears_v = spec.cutoff_cell_voltage_v, BEARS_V.get(spec.chemistry or "")
    own = None if spec.volts is None else spec.volts.lowest_v
    if spec.kind != "battery" or cutoff_v is None or bears_v is None or own is not None:
        return
    if millivolts(cutoff_v) < millivolts(bears_v):
        yield _doubt(
            f"cut-off {amounts.voltage(cutoff_v)} of {spec.spec} is below"
            f" {amounts.voltage(bears_v)}, which harms a {spec.chemistry} cell",
            spec.place("cutoff_cell_voltage"),
            "correct it; write volts: {lowest: ...} if its maker says so",
        )


def _benches(hangar: Hangar) -> Iterator[Problem]:
    # They take long to load, and few hangars have a table.
    from buildbook.figures.answers.propulsion.bench.plausible import Limits, held
    from buildbook.figures.answers.propulsion.bench.words import (
        groups,
        left_out_words,
        place_of,
        whole_words,
    )

    for spec in hangar.ledger.specs.values():
        table = None if spec.bench is None else hangar.ledger.bench.get(spec.bench)
        if table is None or spec.sure:
            continue
        limits = Limits(_largest_m(hangar, spec), spec.max_current_a, spec.max_power_w)
        found = held(table, limits)
        if found.whole not in (None, "few", "missing"):
            yield _doubt(
                whole_words(table, found, limits),
                place_of(found),
                "no figure uses it; correct the column, or the limits of the motor",
            )
            continue
        for group in groups(found.left_out):
            yield _doubt(
                left_out_words(table, group, limits),
                Place(table.file, group[0].row.line),
                "correct it, or delete the line",
            )


def _largest_m(hangar: Hangar, spec: Spec) -> float | None:
    """The largest propeller that turns on such a motor: it needs the least power."""
    diameters = [
        propeller.spec.size.diameter_m
        for aircraft in hangar.aircraft.values()
        for station in aircraft.motor_stations
        if (motor := hangar.item_at(aircraft, station, "motor")) is not None
        and motor.spec.spec == spec.spec
        and (propeller := hangar.item_at(aircraft, station, "propeller")) is not None
        and propeller.spec.size is not None
    ]
    return max(diameters, default=None)


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


def _balance(
    craft_of: Callable[[str], Craft], aircraft: AircraftNow, sure: frozenset[str]
) -> Iterator[Problem]:
    """A balance point that no rotor lies beyond, or that is farther off than its wing is wide."""
    found = [one for one in aircraft.weighings if one.cg_m is not None and one.uid not in sure]
    if not found:
        return
    least, most = _reach(craft_of(aircraft.slug))
    for weighing in found:
        within = zip(least, weighing.cg_m or (), most, strict=False)
        if not all(low <= (at or 0.0) <= high for low, at, high in within):
            yield _doubt(
                f"the balance point of {weighing.on} lies outside {aircraft.slug}",
                weighing.place,
                "mm or cm? forward, right and down from the reference point",
                aircraft.slug,
            )


def _reach(craft: Craft) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """How far an aircraft reaches forward, right and down, at the least and at the most, in m.

    What hangs on three rotors or more has its weight among them.
    """
    record = craft.now.record
    far_m = record.diagonal_m if record.wing is None else record.wing.span_m
    limit = inf if far_m is None else far_m
    if craft.hovers and len(craft.rotors) > 2:
        try:
            sides = tuple(zip(*craft.rotor_places(), strict=True))
        except Lacking:
            return (-limit,) * 3, (limit,) * 3
        return (*map(min, sides), -limit), (*map(max, sides), limit)
    return (-limit,) * 3, (limit,) * 3


def _hover(craft_of: Callable[[str], Craft], aircraft: AircraftNow) -> Iterator[Problem]:
    if aircraft.status != "flying" or not aircraft.hovers:
        return
    craft = craft_of(aircraft.slug)
    if all(rotor.motor is not None and rotor.motor.spec.sure for rotor in craft.rotors):
        return
    said = attempt("hover_throttle", None, lambda: hover_throttle_with(craft, craft.pack))
    if isinstance(said, Figure) and said.value is not None and said.value < LEAST_HOVER:
        yield _doubt(
            f"{aircraft.slug} would hover at {amounts.share(said.value)} throttle",
            aircraft.record.place(),
            "check its mass, the thrust table and the cell count of its pack",
            aircraft.slug,
            f"{aircraft.slug} would hover",
        )


def _thin_runs(craft_of: Callable[[str], Craft], aircraft: AircraftNow) -> Iterator[Problem]:
    """Runs so thin that they are hot at once: a slip of the pen, or a fire."""
    if aircraft.status != "flying" or not aircraft.wiring:
        return
    told: dict[str, Figure] = {}
    for said in wire_margin(craft_of(aircraft.slug)):
        if isinstance(said, Figure) and is_too_thin(said):
            run = said.about or ""
            if run not in told or (said.value or 0.0) < (told[run].value or 0.0):
                told[run] = said
    wires = {one.label: one.wire.written for one in aircraft.wiring if one.wire}
    for run, said in told.items():
        amps, copper, usual = (number(one) for one in said.inputs)
        density = amounts.significant(amps / copper / 1e6, 2)
        yield _doubt(
            f"the {wires[run]} from {run} of {aircraft.slug} carries {density} A/mm² "
            f"{'in a hover' if said.load == 'hover' else 'at full throttle'}, where {usual:g} are "
            "usual at most",
            said.inputs[1].place or aircraft.record.place(),
            f"{wanted_copper(amps / usual)}; correct the wire if it is that thick",
            aircraft.slug,
            f"the {wires[run]} from {run} of {aircraft.slug} carries",
        )


def _life_of_airframe(hangar: Hangar, item: ItemNow) -> Iterator[Problem]:
    """A motor of a glider that came with all the hours of its airframe."""
    before = item.item.carried
    aircraft = hangar.aircraft[item.stays[0].aircraft] if item.stays else None
    born = None if aircraft is None else aircraft.record.carried
    if before is None or born is None or aircraft is None or not before.duration_s:
        return
    if before.duration_s == born.duration_s and aircraft.tally.total.gliding_s:
        yield _doubt(
            f"{item.tag} has the {amounts.hours(before.duration_s)} that {aircraft.slug} was flown "
            "before, though its motor does not run all the time",
            item.item.place("carried"),
            "of a motor, ESC or propeller write the hours that the motor ran",
            aircraft.slug,
        )


def _charged_twice(hangar: Hangar, sure: frozenset[str]) -> Iterator[Problem]:
    """Alike in pack, day and charge, in two entries whose times agree, and not flown that day."""
    alike: list[tuple[ChargeDone, ChargeDone]] = []
    for pack in (item for item in hangar.items.values() if item.is_pack):
        flown = {one.on for one in pack.flights}
        before: dict[object, ChargeDone] = {}
        for one in pack.charges:
            if one.put_in_ah is None or one.on in flown or one.uid in sure:
                continue
            first = before.setdefault((one.on, one.put_in_ah, one.packs_together), one)
            if first.uid != one.uid:
                alike.append((first, one))
    if not alike:
        return
    times = {one.uid: one.time for one in hangar.ledger.entries if type(one) is Charge}
    told: dict[tuple[str, str], Problem] = {}
    for first, one in alike:
        known = {time for uid in (first.uid, one.uid) if (time := times.get(uid))}
        if len(known) < 2:
            told.setdefault((first.uid, one.uid), _charge_again(first, one))
    yield from told.values()


def _charge_again(first: ChargeDone, again: ChargeDone) -> Problem:
    return Problem(
        f"the same charge of {again.pack} on {again.on} is written twice",
        again.place,
        "warning",
        f"remove one of them; {MEANT}",
        (first.place,),
    )


def _one_charge(pack: ItemNow, sure: frozenset[str]) -> Iterator[Problem]:
    """Flights between two charges that used more than the pack holds: a charge is not written."""
    held_ah = pack.spec.capacity_ah
    if not held_ah or pack.through.most_flights < 2:
        return
    flown: list[FlightDone] | None = None  # since the first charge
    for event in (*in_best_order(pack.flights, pack.charges, carried=True), None):
        if isinstance(event, FlightDone):
            if flown is not None:
                flown.append(event)
            continue
        # of one flight and its charge on one day the order may be unknown
        known = event is None or event.between or (flown and event.on != flown[-1].on)
        if flown and len(flown) > 1 and known and flown[-1].uid not in sure:
            yield from _too_much(pack, held_ah, flown)
        flown = []


def _too_much(pack: ItemNow, held_ah: float, flown: Sequence[FlightDone]) -> Iterator[Problem]:
    used_ah = sum(share_of_flight_ah(one) or 0.0 for one in flown)
    last = flown[-1]
    if round(used_ah / held_ah, 6) > MOST_USED:
        yield _doubt(
            f"{len(flown)} flights on one charge of {pack.tag} used {amounts.charge(used_ah)},"
            f" though it is rated {amounts.charge(held_ah)}",
            last.place,
            "write the charge between them, or another pack",
            last.aircraft,
        )
