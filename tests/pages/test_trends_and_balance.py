"""How aircraft flew, what weighs where, how long parts lasted: gathered for charts and tables."""

from itertools import pairwise

import pytest

from buildbook.pages.aircraft import layout
from buildbook.pages.aircraft.charts import chart_of_hangar


def test_hours_between_crashes_add_up_to_all_that_was_flown(demo_reports):
    """No flight is lost or counted twice; each flight that ended in a crash ends a stretch."""
    assert demo_reports.hangar.aircraft
    for slug, aircraft in demo_reports.hangar.aircraft.items():
        crashes = sum(flight.landing == "crash" for flight in aircraft.flights)
        series = demo_reports.between_crashes(slug)
        if crashes == 0:
            assert series is None
            continue
        flown_h = sum(flight.duration_s for flight in aircraft.flights) / 3600

        assert crashes == len(series.gaps_h)
        assert pytest.approx(flown_h) == sum(series.gaps_h) + series.since_h


def test_charge_a_minute_has_the_limits_of_the_handbook(demo_reports):
    """Centre and limits as NIST/SEMATECH 6.3.2.2 has them: mean, 3 mean ranges over 1.128."""
    series = demo_reports.charge_a_minute("hogweed")
    values = [value for _, value in series.points]
    mean = sum(values) / len(values)
    ranges = [abs(b - a) for a, b in pairwise(values)]
    half = 3 * sum(ranges) / len(ranges) / 1.128

    assert 12 == len(values)
    assert pytest.approx(mean) == series.centre
    assert pytest.approx(mean + half, rel=1e-4) == series.upper[0][1]
    assert pytest.approx(mean - half, rel=1e-4) == series.lower[0][1]


def test_few_flights_have_no_limits(demo_reports):
    """Clover has not flown."""
    assert None is demo_reports.charge_a_minute("clover")


def test_months_of_the_hangar_hold_all_flights(demo_reports):
    """The demo is younger than two years, so that no flight is left out."""
    chart = chart_of_hangar(demo_reports)
    told = sum(int(flights) for _, flights, _ in chart.table[1])

    assert sum(len(one.flights) for one in demo_reports.hangar.aircraft.values()) == told


def test_what_sits_at_one_place_is_one_disc_of_all_its_mass(demo_reports):
    """A motor station is drawn once, by its name; the table tells each part."""
    balance = demo_reports.balance("burdock")
    names = [load.name for load in balance.drawn.loads]

    assert {"front-left", "front-right", "rear-right", "rear-left"} <= set(names)
    assert len(balance.told.loads) > len(names)
    assert pytest.approx(sum(load.mass_kg for load in balance.told.loads)) == sum(
        load.mass_kg for load in balance.drawn.loads
    )


def test_what_lacks_for_several_figures_is_said_once(demo_reports):
    """Clover has no pack, and seven figures wait for it."""
    told = demo_reports.headlines("clover").lacks
    reasons = [lack.because for lack in told]

    assert len(set(reasons)) == len(reasons)
    assert (
        "its pack is not recorded: weigh it with the pack in, write 'pack' there or with a flight"
        == reasons[0]
    )
    assert ("all_up_mass", "flight_time") == told[0].names[:2]


def test_past_lives_are_those_of_parts_that_ended(demo_reports):
    """Three motors of one kind are gone."""
    motors = next(life for life in demo_reports.stock().past_lives if life.kind == "motor")

    assert ("M-03", "M-12", "M-14") == motors.tags


def test_one_motor_starts_neither_together_nor_apart(demo_reports):
    """There is nothing beside it to be compared with."""
    alone = demo_reports.figures_of_aircraft("thistledown").find("start_spread")

    assert ("", [""]) == (alone.verdict, [row[2] for row in alone.table.rows])


def test_the_balance_names_the_pack_that_it_counts(demo_reports):
    """Burdock flew last on P-05; nobody knows a pack of Clover."""
    assert (
        "With P-05, the pack flown last."
        == layout.page(demo_reports, "burdock").facts["balance_pack"]
    )
    assert (
        "Without a pack: none is known."
        == layout.page(demo_reports, "clover").facts["balance_pack"]
    )
