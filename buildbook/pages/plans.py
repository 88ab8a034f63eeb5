"""An aircraft of the hangar becomes the plans that the drawings are made from."""

import msgspec

from buildbook.records.parts import Spec
from buildbook.report.figure import Answers, Figure
from buildbook.report.history import FlightDone
from buildbook.report.plans import (
    CgPlan,
    DrivePlan,
    Fault,
    LayoutPlan,
    MonthPlan,
    RunPlan,
    SpinState,
    StationPlan,
    WingPlan,
    WiringPlan,
)
from buildbook.report.reports import Reports
from buildbook.report.state import AircraftNow
from buildbook.report.station_place import place_of_station
from buildbook.report.work import Row

SPINS_AT_FAULT = ("the spins do not cancel", "rank below 4")
"""How the figure ``rotation_balance`` begins where the layout as a whole can't hold yaw."""

_EACH_ESC = "each esc"
_ONE_ESC = ("esc", "the esc", "speed controller")


def layout_plan(reports: Reports, slug: str, answers: Answers | None = None) -> LayoutPlan | None:
    """The layout of an aircraft as it is now; None where no place of any station is known.

    answers: its figures, for the centre of gravity; without them none is drawn.
    """
    aircraft = reports.hangar.aircraft[slug]
    record = aircraft.record
    states = _spin_states(reports, slug)
    stations = tuple(
        plan
        for name in aircraft.motor_stations
        if (plan := _station(reports, aircraft, name, states.get(name, "planned"))) is not None
    )
    wing = _wing(aircraft)
    if not stations and wing is None:
        return None
    return LayoutPlan(
        aircraft=record.aircraft,
        layout=record.layout,
        stations=stations,
        diagonal_m=record.diagonal_m,
        to_scale=record.diagonal_m is not None or _all_placed(aircraft),
        wing=wing,
        cg=_cg(aircraft, answers),
        faults=_spin_faults(answers),
    )


def wiring_plan(reports: Reports, slug: str, answers: Answers | None = None) -> WiringPlan | None:
    """The wiring as recorded; None where neither runs nor leads are."""
    aircraft = reports.hangar.aircraft[slug]
    if not aircraft.wiring and not aircraft.receiver:
        return None
    drives = tuple(_drive(aircraft, name) for name in aircraft.motor_stations)
    return WiringPlan(
        aircraft=aircraft.record.aircraft,
        runs=tuple(_run(run_at, aircraft, answers) for run_at in range(len(aircraft.wiring))),
        drives=tuple(drive for drive in drives if drive.esc or drive.motor),
        leads=aircraft.receiver,
    )


def drawn_wiring(plan: WiringPlan) -> WiringPlan:
    """The same as a tree: without runs beyond the ESCs, which the table tells of.

    A run to ``esc`` on an aircraft with one drive is the run to the ESC of that station. Motors
    that share one ESC board hang from no run of their own, so only the board is drawn.
    """
    only = plan.drives[0].station if len(plan.drives) == 1 else None
    shared = len(plan.drives) > 1 and len({drive.esc for drive in plan.drives}) == 1
    return msgspec.structs.replace(
        plan,
        drives=() if shared and all(run.to != _EACH_ESC for run in plan.runs) else plan.drives,
        runs=tuple(
            msgspec.structs.replace(run, to=f"esc {only}") if only and run.to in _ONE_ESC else run
            for run in plan.runs
            if run.from_ != _EACH_ESC
        ),
    )


def months_flown(
    reports: Reports, flights: tuple[FlightDone, ...], months: int
) -> tuple[MonthPlan, ...]:
    """Flights and hours of each of the last so many months, up to that of the day shown."""
    as_of = reports.hangar.as_of
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


def spin_rows(reports: Reports, slug: str) -> tuple[Row, ...]:
    """The check of spin directions, a row for each station, whatever the status of the aircraft."""
    return tuple(
        row for row in reports.set_up_checks(slug) if row.name == "spin-directions" and row.station
    )


def _spin_states(reports: Reports, slug: str) -> dict[str, SpinState]:
    told: dict[str, SpinState] = {"ok": "checked", "failed": "failed"}
    return {row.station or "": told.get(row.state, "planned") for row in spin_rows(reports, slug)}


def _all_placed(aircraft: AircraftNow) -> bool:
    return all(place_of_station(aircraft, name) is not None for name in aircraft.motor_stations)


def _spec_at(reports: Reports, aircraft: AircraftNow, station: str, kind: str) -> Spec | None:
    found = reports.hangar.item_at(aircraft, station, kind)
    return None if found is None else found.spec


def _station(
    reports: Reports, aircraft: AircraftNow, name: str, spin_state: SpinState
) -> StationPlan | None:
    place = place_of_station(aircraft, name, arm_m=1.0)
    if place is None:
        return None
    planned = aircraft.stations.get(name)
    propeller = _spec_at(reports, aircraft, name, "propeller")
    return StationPlan(
        name=name,
        forward_m=place.at_m[0],
        right_m=place.at_m[1],
        spin=planned.spin if planned else None,
        spin_state=spin_state,
        output=planned.output if planned else None,
        propeller_m=propeller.size.diameter_m if propeller and propeller.size else None,
        hand=propeller.hand if propeller else None,
        blades=propeller.blades or 2 if propeller else 2,
    )


def _wing(aircraft: AircraftNow) -> WingPlan | None:
    wing = aircraft.record.wing
    if wing is None or wing.span_m is None or wing.mean_chord_m is None:
        return None
    tail = place_of_station(aircraft, "tail")
    return WingPlan(
        span_m=wing.span_m,
        mean_chord_m=wing.mean_chord_m,
        area_m2=wing.area_m2,
        leading_edge_aft_m=wing.leading_edge_m or 0.0,
        tail_aft_m=None if tail is None else -tail.at_m[0],
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
    computed = any(note.startswith("computed") for note in balance.notes)
    return "weighed" if balance.basis == "measured" and not computed else "computed"


def _drive(aircraft: AircraftNow, name: str) -> DrivePlan:
    planned = aircraft.stations.get(name)
    esc, motor = aircraft.at(name, "esc"), aircraft.at(name, "motor")
    return DrivePlan(
        station=name,
        esc=esc.tag if esc else None,
        motor=motor.tag if motor else None,
        output=planned.output if planned else None,
    )


def load_point(answers: Answers | None) -> str | None:
    """At which load the runs of the wiring are drawn: full throttle where that is known."""
    loads = (
        [figure.of or "" for figure in answers.figures if figure.name == "wire_load"]
        if answers
        else []
    )
    for point in ("full throttle", "hover"):
        if any(of.endswith(f", {point}") for of in loads):
            return point
    return None


def _run(index: int, aircraft: AircraftNow, answers: Answers | None) -> RunPlan:
    run = aircraft.wiring[index]
    of = f"{run.start} to {run.end}, {load_point(answers)}"
    current = answers.find("wire_load", of) if answers else None
    drop = answers.find("wire_drop", of) if answers else None
    return RunPlan(
        from_=run.start,
        to=run.end,
        wire=run.wire.written if run.wire else None,
        length_m=run.length_m,
        plug=run.plug,
        current_a=current.value if current else None,
        drop_v=drop.value if drop else None,
        drop_share=drop.other.get("share of the pack's voltage") if drop else None,
    )


def _spin_faults(answers: Answers | None) -> tuple[Fault, ...]:
    """What the balance of the spins as a whole says, where it is not as it should be."""
    figure = answers.find("rotation_balance") if answers else None
    verdict = (figure.verdict or "") if figure else ""
    if not verdict.startswith(SPINS_AT_FAULT):
        return ()
    return (Fault(kind="other", stations=(), words=verdict),)
