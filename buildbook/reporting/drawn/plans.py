"""Layout and wiring of an aircraft as they are now."""

import datetime
from collections.abc import Iterable

from buildbook.records.aircraft import Run
from buildbook.records.parts import Spec
from buildbook.records.readings import is_of_each, station_read, turn_read
from buildbook.records.row_names import SPIN_DIRECTIONS
from buildbook.report.drawn.plans import (
    CgPlan,
    DrivePlan,
    Fault,
    LayoutPlan,
    MonthPlan,
    RunPlan,
    ServoPlan,
    SpinState,
    StationPlan,
    SurfacePlan,
    Turn,
    WingPlan,
    WiringPlan,
)
from buildbook.report.drawn.station_place import StationPlace, place_of_station
from buildbook.report.figure import OF_VOLTAGE, Answers, Figure
from buildbook.report.history import FlightDone
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep.work import Row
from buildbook.reporting.whole import Whole

MONTHS = 12


def layout(whole: Whole, slug: str) -> LayoutPlan | None:
    """The layout as it is now, with its balance; None where no place of any station is known."""
    return _layout(whole, slug, whole.reports.figures_of_aircraft(slug))


def layout_outline(whole: Whole, slug: str) -> LayoutPlan | None:
    """The same without what only figures know: cheap, for lists and cards."""
    return _layout(whole, slug, None)


def _layout(whole: Whole, slug: str, answers: Answers | None) -> LayoutPlan | None:
    aircraft = whole.hangar.aircraft[slug]
    record = aircraft.record
    checks = _spin_checks(whole, slug)
    stations: list[StationPlan] = []
    unplaced: list[StationPlan] = []
    for name in aircraft.motor_stations:
        place = place_of_station(aircraft, name, arm_m=1.0)
        plan = _station(whole, aircraft, name, checks.get(name), place)
        (unplaced if place is None else stations).append(plan)
    wing, pack = _wing(aircraft), place_of_station(aircraft, "pack")
    if not stations and wing is None:
        return None
    return LayoutPlan(
        aircraft=record.aircraft,
        layout=record.layout,
        stations=tuple(stations),
        unplaced=tuple(unplaced),
        diagonal_m=record.diagonal_m,
        to_scale=wing is not None or record.diagonal_m is not None or not _by_arm(aircraft),
        wing=wing,
        pack_down_m=None if pack is None else pack.at_m[2],
        cg=_cg(aircraft, answers),
        faults=_spin_faults(answers),
    )


def wiring(whole: Whole, slug: str) -> WiringPlan | None:
    """The wiring as recorded, with its loads; None where neither runs nor leads are."""
    aircraft = whole.hangar.aircraft[slug]
    if not aircraft.wiring and not aircraft.receiver:
        return None
    answers = whole.reports.figures_of_aircraft(slug)
    point = load_point(answers)
    controller = _first(aircraft, "controller")
    drives = tuple(_drive(aircraft, name) for name in aircraft.motor_stations)
    return WiringPlan(
        aircraft=aircraft.record.aircraft,
        runs=tuple(_run(run, answers, point) for run in aircraft.wiring),
        drives=tuple(drive for drive in drives if drive.esc or drive.motor),
        leads=aircraft.receiver,
        sockets=aircraft.sockets,
        servos=tuple(
            ServoPlan(tag=tag, drives=name)
            for name, surface in aircraft.surfaces.items()
            for tag in surface.servos
        ),
        controlled=controller is not None or aircraft.hovers,
        controller=controller,
        receiver=_first(aircraft, "receiver"),
        load_point=point,
    )


def months_flown(whole: Whole, slug: str) -> tuple[MonthPlan, ...]:
    """Flights and hours of an aircraft in each of the last twelve months."""
    return last_months(whole.hangar.as_of, whole.hangar.aircraft[slug].flights, MONTHS)


def last_months(
    as_of: datetime.date, flights: Iterable[FlightDone], months: int
) -> tuple[MonthPlan, ...]:
    """Flights and hours of each of the last so many months, up to that of the day."""
    last = as_of.year * 12 + as_of.month - 1
    counts = [0] * months
    seconds = [0.0] * months
    for flight in flights:
        place = flight.on.year * 12 + flight.on.month - 1 - last + months - 1
        if 0 <= place < months:
            counts[place] += 1
            seconds[place] += flight.duration_s
    return tuple(
        MonthPlan(
            month=f"{(last - months + 1 + place) // 12}-{(last - months + 1 + place) % 12 + 1:02d}",
            flights=counts[place],
            hours=seconds[place] / 3600,
        )
        for place in range(months)
    )


def _spin_checks(whole: Whole, slug: str) -> dict[str, Row]:
    rows = whole.reports.set_up_checks(slug)
    return {row.station or "": row for row in rows if row.name == SPIN_DIRECTIONS}


def _seen(row: Row | None, station: str) -> Turn | None:
    """Which way the motor was read to turn there, while that check counts."""
    if row is None or row.state not in ("ok", "failed"):
        return None
    read = {name: turn_read(said) for name, said in row.readings.items()}
    of_station = [turn for name, turn in read.items() if station_read(name, (station,))[0]]
    of_each = [turn for name, turn in read.items() if is_of_each(name)]
    return next((turn for turn in (*of_station, *of_each) if turn), None)


def _spin_state(row: Row | None, planned: Turn | None, seen: Turn | None) -> SpinState:
    """A station read as planned has not failed because another did; nor has it passed."""
    if row is None or row.state not in ("ok", "failed"):
        return "planned"
    if row.state == "ok":
        return "checked"
    return "read" if seen is not None and seen == planned else "failed"


def _by_arm(aircraft: AircraftNow) -> bool:
    """Whether any station is placed in arms only, for want of a diagonal."""
    return any(
        place_of_station(aircraft, name) is None
        and place_of_station(aircraft, name, arm_m=1.0) is not None
        for name in aircraft.motor_stations
    )


def _spec_at(whole: Whole, aircraft: AircraftNow, station: str, kind: str) -> Spec | None:
    found = whole.hangar.item_at(aircraft, station, kind)
    return None if found is None else found.spec


def _station(
    whole: Whole, aircraft: AircraftNow, name: str, check: Row | None, place: StationPlace | None
) -> StationPlan:
    planned = aircraft.stations.get(name)
    spin, seen = planned.spin if planned else None, _seen(check, name)
    propeller = _spec_at(whole, aircraft, name, "propeller")
    return StationPlan(
        name=name,
        forward_m=place.at_m[0] if place else 0.0,
        right_m=place.at_m[1] if place else 0.0,
        spin=spin,
        spin_state=_spin_state(check, spin, seen),
        seen=seen,
        output=planned.output if planned else None,
        propeller_m=propeller.size.diameter_m if propeller and propeller.size else None,
        hand=propeller.hand if propeller else None,
        blades=propeller.blades or 2 if propeller else 2,
    )


def _wing(aircraft: AircraftNow) -> WingPlan | None:
    wing = aircraft.record.wing
    if wing is None or wing.span_m is None:
        return None
    chord_m = wing.mean_chord_m or (wing.area_m2 / wing.span_m if wing.area_m2 else None)
    if chord_m is None:
        return None
    tail, at = place_of_station(aircraft, "tail"), place_of_station(aircraft, "wing")
    return WingPlan(
        span_m=wing.span_m,
        mean_chord_m=chord_m,
        area_m2=wing.area_m2,
        leading_edge_aft_m=wing.leading_edge_m or 0.0,
        up_m=None if at is None else -at.at_m[2],
        tail_aft_m=None if tail is None else -tail.at_m[0],
        tail_up_m=None if tail is None else -tail.at_m[2],
        surfaces=tuple(
            SurfacePlan(name=name, chord_m=surface.chord_m, length_m=surface.length_m)
            for name, surface in aircraft.record.surfaces.items()
        ),
    )


def _cg(aircraft: AircraftNow, answers: Answers | None) -> CgPlan | None:
    bounds = aircraft.bounds
    forward = answers.find("balance", "forward") if answers else None
    right = answers.find("balance", "right") if answers else None
    band = band_m = None
    if bounds and bounds.forward_cg_share is not None and bounds.aft_cg_share is not None:
        band = (bounds.forward_cg_share, bounds.aft_cg_share)
    if bounds and bounds.forward_cg_m is not None and bounds.aft_cg_m is not None:
        band_m = (bounds.forward_cg_m, bounds.aft_cg_m)
    if forward is None and band is None and band_m is None:
        return None
    return CgPlan(
        forward_m=forward.value if forward else None,
        right_m=(right.value or 0.0) if right else 0.0,
        band_share=band,
        band_forward_m=band_m,
        words=_how_known(forward),
    )


def _how_known(balance: Figure | None) -> str:
    if balance is None:
        return ""
    if balance.basis != "measured":
        return "computed"
    return "weighed" if balance.weighed else "weighed, adjusted for changes since"


def _drive(aircraft: AircraftNow, name: str) -> DrivePlan:
    planned = aircraft.stations.get(name)
    esc, motor = aircraft.at(name, "esc"), aircraft.at(name, "motor")
    return DrivePlan(
        station=name,
        esc=esc.tag if esc else None,
        motor=motor.tag if motor else None,
        output=planned.output if planned else None,
    )


def _first(aircraft: AircraftNow, kind: str) -> str | None:
    """The tag of the first item of a kind, wherever it sits."""
    return next((fitted.tag for fitted in aircraft.items() if fitted.kind == kind), None)


def load_point(answers: Answers) -> str | None:
    """At which load the runs of the wiring are drawn: full throttle where that is known."""
    loads = {figure.load for figure in answers.figures if figure.name == "wire_load"}
    for point in ("full throttle", "hover"):
        if point in loads:
            return point
    return None


def _run(run: Run, answers: Answers, point: str | None) -> RunPlan:
    of = f"{run.label}, {point}"
    current, drop = answers.find("wire_load", of), answers.find("wire_drop", of)
    return RunPlan(
        from_=run.start,
        to=run.end,
        wire=run.wire.written if run.wire else None,
        length_m=run.length_m,
        plug=run.plug,
        current_a=current.value if current else None,
        drop_v=drop.value if drop else None,
        drop_share=drop.other.get(OF_VOLTAGE) if drop else None,
    )


def _spin_faults(answers: Answers | None) -> tuple[Fault, ...]:
    """What the balance of the spins as a whole says, where it is not as it should be."""
    figure = answers.find("rotation_balance") if answers else None
    if figure is None or figure.fault is None:
        return ()
    return (Fault(kind="other", stations=(), words=figure.fault),)
