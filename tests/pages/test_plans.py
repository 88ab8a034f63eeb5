"""Aircraft as plans of the drawings: places by plane geometry, spins by their check."""

import math

import pytest

from buildbook.drawings.wiring.wiring import drawn_wiring, wiring_drawing
from buildbook.reporting.drawn.plans import last_months


def test_stations_of_a_quad_x_sit_on_its_diagonals(owner):
    """A 400 mm diagonal: each motor is 200 mm from the centre, 45 degrees off (geometry)."""
    plan = owner.layout_outline("sedge")
    reach = 0.2 / math.sqrt(2)

    assert [
        ("front-left", pytest.approx(reach, abs=1e-6), pytest.approx(-reach, abs=1e-6)),
        ("front-right", pytest.approx(reach, abs=1e-6), pytest.approx(reach, abs=1e-6)),
        ("rear-left", pytest.approx(-reach, abs=1e-6), pytest.approx(-reach, abs=1e-6)),
        ("rear-right", pytest.approx(-reach, abs=1e-6), pytest.approx(reach, abs=1e-6)),
    ] == [(at.name, at.forward_m, at.right_m) for at in plan.stations]


def test_a_spin_is_planned_until_its_check_has_passed_there(owner):
    """Three stations were checked, one was not."""
    plan = owner.layout_outline("sedge")

    assert ["checked", "checked", "planned", "checked"] == [at.spin_state for at in plan.stations]
    assert ["ccw", "cw", "cw", "ccw"] == [at.hand for at in plan.stations]


def test_what_a_failed_spin_check_read_is_drawn_station_by_station(open_changed):
    """One read otherwise, one as planned, one not at all: three things to see."""
    log = (
        "- on: 2026-02-01\n  check: spin-directions\n  result: fail\n"
        "  readings: {front-left: cw, front-right: cw}\n"
    )
    record = (
        "aircraft: Rush\nkind: multirotor\nlayout: tri-y\nstatus: building\nprogramme: few\n"
        "stations: {front-left: {spin: ccw}, front-right: {spin: cw}, rear: {spin: cw}}\n"
    )
    plan = open_changed(
        {"aircraft/rush/aircraft.yaml": record, "aircraft/rush/logbook.yaml": log}
    ).layout_outline("rush")

    assert [("failed", "cw"), ("read", "cw"), ("failed", None)] == [
        (at.spin_state, at.seen) for at in plan.stations
    ]


def test_a_reading_that_no_longer_counts_is_not_drawn(open_changed):
    """After its leads were changed nobody knows which way a motor turns."""
    log = (
        "- on: 2026-02-01\n  check: spin-directions\n  result: pass\n  readings: {each: cw}\n"
        "- on: 2026-02-02\n  note: New plugs\n  rewired: [rear]\n"
    )
    record = (
        "aircraft: Rush\nkind: multirotor\nlayout: tri-y\nstatus: building\n"
        "programme: small-multirotor\n"
    )
    plan = open_changed(
        {"aircraft/rush/aircraft.yaml": record, "aircraft/rush/logbook.yaml": log}
    ).layout_outline("rush")

    assert [("checked", "cw"), ("checked", "cw"), ("planned", None)] == [
        (at.spin_state, at.seen) for at in plan.stations
    ]


def test_an_aeroplane_is_to_scale_by_its_span_and_lists_a_motor_without_a_place(open_changed):
    """The span gives the scale; a motor of which nobody wrote where it sits is told."""
    record = (
        "aircraft: Rush\nkind: aeroplane\nlayout: aeroplane\nstatus: building\nprogramme: few\n"
        "stations: {nose: {spin: cw, output: 2}}\nwing: {span: 1400 mm, area: 0.28 m²}\n"
    )
    plan = open_changed(
        {"aircraft/rush/aircraft.yaml": record, "aircraft/rush/logbook.yaml": "[]\n"}
    ).layout_outline("rush")

    assert (True, (), ["nose"]) == (
        plan.to_scale,
        plan.stations,
        [at.name for at in plan.unplaced],
    )
    assert pytest.approx(0.2) == plan.wing.mean_chord_m


def test_an_aircraft_that_is_building_shows_its_checks_too(open_changed):
    """It raises no work, but its drawing must not claim more or less than was checked."""
    reports = open_changed(
        {
            "aircraft/rush/logbook.yaml": (
                "- on: 2026-02-01\n  check: spin-directions\n  result: pass\n  stations: [rear]\n"
            )
        }
    )

    assert {"front-left": "never done", "front-right": "never done", "rear": "ok"} == {
        row.station: row.state for row in reports.set_up_checks("rush") if row.station
    }


def test_without_a_diagonal_a_layout_is_not_to_scale(owner):
    """Places are in arms then."""
    plan = owner.layout_outline("rush")

    assert (False, None) == (plan.to_scale, plan.diagonal_m)
    assert (-1.0, 0.0) == (plan.stations[2].forward_m, plan.stations[2].right_m)


def test_an_aircraft_of_which_no_place_is_known_has_no_drawing(open_changed):
    """A custom layout without places cannot be drawn."""
    record = "aircraft: Rush\nkind: multirotor\nlayout: custom\nstatus: building\nprogramme: few\n"

    assert None is open_changed({"aircraft/rush/aircraft.yaml": record}).layout_outline("rush")


def test_a_station_with_two_places_is_drawn_where_it_is_computed(open_changed):
    """`positions` holds over `at`, for the drawing as for the figures."""
    record = (
        "aircraft: Rush\nkind: multirotor\nlayout: custom\n"
        "stations: {nose: {spin: cw, at: [100 mm, 0 mm, 0 mm]}}\n"
        "positions: {nose: [300 mm, 0 mm, 0 mm]}\n"
    )
    plan = open_changed({"aircraft/rush/aircraft.yaml": record}).layout_outline("rush")

    assert [("nose", 0.3, 0.0)] == [(at.name, at.forward_m, at.right_m) for at in plan.stations]


def test_wiring_is_as_recorded_and_its_drawing_ends_at_the_escs(owner):
    """The run from each ESC to its motor is in the table, not in the tree."""
    plan = owner.wiring("sedge")

    assert [("pack", "distribution"), ("distribution", "each esc"), ("each esc", "each motor")] == [
        (run.from_, run.to) for run in plan.runs
    ]
    assert ["14 AWG", "16 AWG", "18 AWG"] == [run.wire for run in plan.runs]
    assert [("E-1", "M-1", 3), ("E-2", "M-2", 1), ("E-4", "M-4", 4), ("E-3", "M-3", 2)] == [
        (drive.esc, drive.motor, drive.output) for drive in plan.drives
    ]
    assert ("throttle", "rudder", "elevator", "aileron") == plan.leads
    assert None is wiring_drawing(plan)
    assert None is not wiring_drawing(drawn_wiring(plan))


def test_nothing_recorded_is_no_wiring(owner):
    """No runs and no leads: no plan."""
    assert None is owner.wiring("rush")


def test_health_is_the_last_measured_capacity_over_the_rated_one(open_changed):
    """1980 of 2200 mAh is 90 %; nothing measured is None; quarantine is told beside it."""
    reports = open_changed(
        {
            "stores/packs.yaml": (
                "- on: 2026-06-01\n  capacity: P-2\n  measured: 1980 mAh\n"
                "- on: 2026-06-26\n  state: {P-1: quarantined}\n  because: swollen corner\n"
            )
        }
    )
    healthy, aside = (reports.health(tag) for tag in ("P-2", "P-1"))

    assert ("good", pytest.approx(0.9)) == (healthy.state, healthy.share)
    assert ("quarantined", None) == (aside.state, aside.share)


def test_months_run_up_to_the_day_shown(owner):
    """Six months to June; 2 and 9 flights in June, 4550 s together."""
    months = last_months(owner.hangar.as_of, owner.hangar.aircraft["sedge"].flights, 6)

    assert ["2026-01", "2026-02", "2026-03", "2026-04", "2026-05", "2026-06"] == [
        month.month for month in months
    ]
    assert [0, 0, 0, 0, 0, 11] == [month.flights for month in months]
    assert pytest.approx(4550 / 3600) == months[-1].hours
