"""What the log says of aircraft and packs."""

import datetime
from pathlib import Path

import pytest
from small_hangars import ITEMS, LOG, SMALL, SPECS, benched, found, opened, pack, quad, refused

from buildbook.figures.answers.registry import figures_of_item
from buildbook.words.measures.figure_values import input_words


def flights(count: int, amperes: float = 9.0, first: int = 0) -> str:
    """Flights of five to six minutes at an even current, charged after each."""
    entries = []
    for number in range(first, first + count):
        day = datetime.date(2026, 3, 1) + datetime.timedelta(days=number)
        seconds = 300 + 10 * (number % 7)
        used = round(amperes * seconds / 3.6)
        entries.append(
            f"- {{on: {day}, flight: {seconds} s, pack: P-1, used: {used} mAh}}\n"
            f"- {{on: {day}, charge: P-1, put_in: {used} mAh}}\n"
        )
    return "".join(entries)


def flown(count: int, more: str = "") -> dict[str, str]:
    """The small quad with flights."""
    return {**SMALL, "aircraft/sedge/logbook.yaml": LOG + flights(count) + more}


def test_current_as_flown(tmp_path: Path) -> None:
    """Every flight takes 9 A, 150 mAh a minute; whole mAh are rounded, so within 0.1 %."""
    figure = found(quad(tmp_path, flown(12)), "flown_current")
    assert figure.low is not None
    assert figure.high is not None

    assert pytest.approx(9.0, rel=1e-3) == figure.value
    assert figure.low <= 9.0 <= figure.high
    assert "150 mAh a minute" == figure.verdict
    assert ("fitted", 0.95) == (figure.basis, figure.level)


def test_one_odd_flight_moves_the_current_by_less_than_a_percent(tmp_path: Path) -> None:
    """A slip of the pen: 5000 mAh in a flight that took 750."""
    slip = "- {on: 2026-04-20, flight: 300 s, pack: P-1, used: 5000 mAh}\n"
    figure = found(quad(tmp_path, flown(20, slip)), "flown_current")

    assert pytest.approx(9.0, rel=0.01) == figure.value


def test_nine_flights_show_the_simulation_ten_the_log(tmp_path: Path) -> None:
    """2.2 Ah less 20 % at 9 A are 704 s; the simulated time stays beside it."""
    from test_time_in_the_cold import seconds as lasts  # which takes its flights from here

    before = found(quad(tmp_path / "nine", flown(9)), "flight_time", "P-1")
    after = found(quad(tmp_path / "ten", flown(10)), "flight_time", "P-1")

    assert "constant_power_discharge" == before.law
    assert str(before.verdict).endswith("; 9 flights so far")
    assert pytest.approx(2.2 * 0.8 / 9.0 * 3600, rel=0.002) == before.other["as flown so far, s"]
    assert before.value is not None
    assert (
        pytest.approx(before.other["as flown so far, s"] / before.value - 1)
        == (before.other["as flown, difference"])
    )
    assert pytest.approx(2.2 * 0.8 / 9.0 * 3600, rel=0.002) == after.value
    assert "fitted" == after.basis
    # as cold as the field, 15 °C: 2.5 % of the charge less, 1.283 times the resistance
    watts = next(float(one.value) for one in before.inputs if one.unit == "W")
    cold = lasts(0.015 * 1.28296, watts, 2.2 * 0.975) / lasts(0.015, watts, 2.2)
    assert pytest.approx(before.value * cold, rel=1e-3) == after.other["simulated, s"]
    assert "so far" not in str(after.verdict)


def test_a_log_that_shows_less_time_than_the_theory_goes_before_it(tmp_path: Path) -> None:
    """Five flights at 18 A, twice what theory has it take: timer and alarm are planned by them."""
    hard = "".join(
        f"- {{on: 2026-04-{day:02d}, flight: 240 s, pack: P-1, used: 1200 mAh}}\n"
        for day in range(10, 15)
    )
    files = {**SMALL, "aircraft/sedge/logbook.yaml": LOG + hard}
    hangar = quad(tmp_path, files)
    time = found(hangar, "flight_time", "P-1")
    timer = found(hangar, "timer_setting", "P-1")

    assert ("fitted", pytest.approx(2.2 * 0.8 / 18.0 * 3600, rel=0.002)) == (time.basis, time.value)
    assert time.low == timer.value
    assert "flights so far" not in (timer.verdict or "")
    assert "fitted" == next(
        one.basis for one in found(hangar, "alarm_voltage", "P-1").inputs if "power" in one.name
    )


def test_three_flights_are_too_few_for_a_rate(tmp_path: Path) -> None:
    """The words name how many there are and how many it takes."""
    because, place = refused(quad(tmp_path, flown(3)), "flown_current")

    assert (
        "flights with their charge so far: 3; it takes 4: write what each took, as 'used'"
        == because
    )
    assert "aircraft/sedge/logbook.yaml:12" == place


def test_no_incident_yet_gives_an_upper_bound(tmp_path: Path) -> None:
    """None in 20 flights: at most 2.995732·100/20 = 14.98 in 100, one-sided.

    Source: Garwood 1936; check values of upkeep, R02.
    """
    figure = found(quad(tmp_path, flown(20)), "failure_rate", "per 100 flights")

    assert figure.value is None
    assert pytest.approx(2.995732 * 5, rel=1e-6) == figure.high
    assert "no incident yet; at most 15 in 100 flights, at 95 %" == figure.verdict
    assert (
        "by the incidents in the log, not by what a check or a look found on the ground",
    ) == figure.notes


def test_few_flights_without_an_incident_tell_nothing(tmp_path: Path) -> None:
    """None in ten flights: 2.995732·10 = 29.96 in 100; of nine it is not said."""
    figure = found(quad(tmp_path / "ten", flown(10)), "failure_rate", "per 100 flights")
    nine = quad(tmp_path / "nine", flown(9))
    why = "9 flights without an incident, which tells nothing yet: it takes 10"

    assert "no incident yet; at most 30 in 100 flights, at 95 %" == figure.verdict
    assert why == refused(nine, "failure_rate")[0]
    assert why == refused(nine, "failure_interval", "hours")[0]


def test_two_incidents_have_exact_limits_and_a_cause(tmp_path: Path) -> None:
    """2 in 20 flights: 10 in 100, limits 0.2422093·5 and 7.224688·5 (R04)."""
    more = (
        "- {on: 2026-05-01, incident: tipped over, severity: light, cause: wind}\n"
        "- {on: 2026-05-02, incident: tipped over again, severity: light, cause: wind}\n"
    )
    answers = quad(tmp_path, flown(20, more))
    rate = found(answers, "failure_rate", "per 100 flights")

    assert pytest.approx(10.0) == rate.value
    assert pytest.approx(0.2422093 * 5, rel=1e-6) == rate.low
    assert pytest.approx(7.224688 * 5, rel=1e-6) == rate.high
    assert (
        pytest.approx(10.0) == found(answers, "failure_rate", "cause wind, per 100 flights").value
    )


def test_a_cause_that_came_up_once_has_no_rate_of_its_own(tmp_path: Path) -> None:
    """Of two incidents with a cause each, only the station that both name recurs."""
    more = (
        "- {on: 2026-05-01, incident: tipped over, severity: light, cause: wind, "
        "touched: [rear-left]}\n"
        "- {on: 2026-05-02, incident: hit a post, severity: light, cause: a glance, "
        "touched: [rear-left, rear-right]}\n"
    )
    answers = quad(tmp_path, flown(20, more))

    assert ["per 100 flights", "per hour", "station rear-left, per 100 flights"] == [
        one.of for one in answers.figures if one.name == "failure_rate"
    ]


def test_a_steady_pack_does_not_drift_and_a_worn_one_does(tmp_path: Path) -> None:
    """30 flights at 9 A with a little scatter; then ten at 11 A."""
    wavy = "".join(flights(1, 9.0 + 0.1 * (-1) ** number, number) for number in range(30))
    worse = wavy + "".join(flights(1, 11.0 + 0.1 * (-1) ** n, n) for n in range(30, 40))
    steady = {**SMALL, "aircraft/sedge/logbook.yaml": LOG + wavy}
    drifting = {**SMALL, "aircraft/sedge/logbook.yaml": LOG + worse}

    assert "within its own limits" == found(pack(tmp_path / "a", steady), "drift").verdict
    figure = found(pack(tmp_path / "b", drifting), "drift")
    assert "outside its own limits now" == figure.verdict
    assert figure.value is not None
    assert 0.15 < figure.value < 0.25
    assert figure.low is not None
    assert pytest.approx(-figure.low) == figure.high
    aircraft = found(quad(tmp_path / "c", drifting), "drift")
    assert aircraft.value is not None
    assert aircraft.value < -0.1


def test_charges_and_full_cycles_of_a_pack(tmp_path: Path) -> None:
    """1300 mAh; put back 980, 1040, 650 mAh: 3 charges, 2.05 full cycles.

    Source: R19 of the record rules (AC 107-2A, chapter 7).
    """
    files = {
        **SMALL,
        "parts/specs.yaml": SPECS.replace("capacity: 2200 mAh", "capacity: 1300 mAh"),
        "stores/p-1.yaml": "".join(
            f"- {{on: 2026-03-0{day}, charge: P-1, put_in: {put_in} mAh}}\n"
            for day, put_in in ((1, 980), (2, 1040), (3, 650))
        ),
    }
    answers = pack(tmp_path, files)

    assert pytest.approx(2670 / 1300) == found(answers, "pack_cycles").value
    assert 3 == found(answers, "pack_charges").value
    assert pytest.approx(2670 / 1300) == found(answers, "component_cycles").value


def test_a_charge_is_counted_once(tmp_path: Path) -> None:
    """A flight that took 1000 mAh and the charge of 1100 mAh after it are 1100 mAh together."""
    log = LOG + (
        "- {on: 2026-03-01, flight: 6 min, pack: P-1, used: 1000 mAh}\n"
        "- {on: 2026-03-01, charge: P-1, put_in: 1100 mAh}\n"
    )
    answers = pack(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log})

    assert pytest.approx(0.5) == found(answers, "pack_cycles").value


@pytest.mark.parametrize(
    ("expected", "band", "cells", "capacity"),
    [
        (19.24, "up to 100 Wh", "4S", "1300 mAh"),
        (111.0, "over 100 to 160 Wh", "6S", "5000 mAh"),
        (177.6, "over 160 Wh", "6S", "8000 mAh"),
    ],
)
def test_energy_and_its_band_for_air_travel(
    tmp_path: Path, expected: float, band: str, cells: str, capacity: str
) -> None:
    """R53 of the record rules: nominal V times Ah, a band, "ask the airline", never "allowed"."""
    specs = SPECS.replace("cells: 3S", f"cells: {cells}").replace("2200 mAh", capacity)
    specs = specs.replace("mass: 350 g", "mass: 1300 g")
    files = {**SMALL, "parts/specs.yaml": specs.replace("2S-4S", "2S-6S")}
    figure = found(pack(tmp_path, files), "pack_energy", "rated")

    assert pytest.approx(expected) == figure.value
    assert f"air travel: {band}; ask the airline" == figure.verdict
    assert "allowed" not in repr(figure)


def test_a_charge_current_only_from_a_recorded_rate(tmp_path: Path) -> None:
    """2C of 2.2 Ah is 4.4 A; without a rate nothing is printed."""
    without = {**SMALL, "parts/specs.yaml": SPECS.replace("  charge_rate: 2C\n", "")}

    assert pytest.approx(4.4) == found(pack(tmp_path / "a", SMALL), "charge_current").value
    assert (
        "charge rate of pack is not recorded: write 'charge_rate' in its spec",
        "parts/specs.yaml:7",
    ) == refused(pack(tmp_path / "b", without), "charge_current")


def test_no_charge_current_for_a_quarantined_pack(tmp_path: Path) -> None:
    """Quarantine goes before everything else."""
    files = {
        **SMALL,
        "stores/p-1.yaml": "- {on: 2026-03-01, state: {P-1: quarantined}, because: dented}\n",
    }

    assert ("P-1 is quarantined", "stores/p-1.yaml:1") == refused(
        pack(tmp_path, files), "charge_current"
    )


def test_the_odd_cell_is_named(tmp_path: Path) -> None:
    """5.0, 5.1, 7.5 mΩ: the third is 49 % above the median of the others; 17.6 mΩ together."""
    charge = "- {on: 2026-03-01, charge: P-1, resistance: [5.0 mΩ, 5.1 mΩ, 7.5 mΩ]}\n"
    answers = pack(tmp_path, {**SMALL, "stores/p-1.yaml": charge})
    figure = found(answers, "pack_resistance")

    assert pytest.approx(0.0176) == figure.value
    assert "cell 3 stands out: +49 % against the others" == figure.verdict
    assert pytest.approx(0.0075) == found(answers, "pack_resistance", "cell 3").value


def test_the_pack_uses_its_own_latest_readings(tmp_path: Path) -> None:
    """Measured capacity and resistance go before the spec in the flight time."""
    log = "- {on: 2026-03-01, charge: P-1, resistance: [9 mΩ, 9 mΩ, 9 mΩ]}\n" + (
        "- {on: 2026-03-02, capacity: P-1, measured: 2000 mAh}\n"
    )
    inputs = {
        given.name: given
        for given in found(
            quad(tmp_path, {**SMALL, "stores/p-1.yaml": log}), "flight_time", "P-1"
        ).inputs
    }

    assert (2.0, "measured") == (
        inputs["capacity of P-1"].value,
        inputs["capacity of P-1"].basis,
    )
    assert pytest.approx(0.027) == inputs["resistance of P-1"].value
    assert "stores/p-1.yaml:1" == str(inputs["resistance of P-1"].place)


def test_unknown_history_is_at_least(tmp_path: Path) -> None:
    """R16 of the record rules: 6 min here and nobody knows what before."""
    items = ITEMS.replace(
        "{tag: C-1, spec: controller, acquired: 2026-01-01}",
        "{tag: C-1, spec: controller, acquired: 2026-01-01, carried: {basis: unknown}}",
    )
    log = LOG + "- {on: 2026-03-01, flight: 6 min, pack: P-1}\n"
    files = {**SMALL, "parts/items.yaml": items, "aircraft/sedge/logbook.yaml": log}
    figure = found(figures_of_item(opened(tmp_path, files), "C-1"), "component_hours")

    assert pytest.approx(0.1) == figure.value
    assert "at least; earlier history unknown" == figure.verdict


def test_gains_are_compared_with_the_set_before(tmp_path: Path) -> None:
    """Term by term: what is in force, what was before, and the difference."""
    log = LOG + (
        "- {on: 2026-03-01, gains: first, values: {roll: {p: 32, i: 16}, pitch: {p: 40, i: 20}}}\n"
        "- {on: 2026-03-02, gains: second, values: {roll: {p: 40, i: 20}, pitch: {p: 50, i: 20}}}\n"
    )
    answers = quad(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log})

    figure = found(answers, "gain_changes", "first")

    assert figure.table is not None
    assert ("axis", "term", "in_force", "against", "change") == figure.table.columns
    assert (
        ("roll", "p", 40.0, 32.0, 8.0),
        ("roll", "i", 20.0, 16.0, 4.0),
        ("pitch", "p", 50.0, 40.0, 10.0),
        ("pitch", "i", 20.0, 20.0, 0.0),
    ) == figure.table.rows
    assert ("the set in force before it: 3 of 4 terms differ", None) == (
        figure.verdict,
        figure.value,
    )


SETS = """\
- {on: 2026-03-01, gains: soft, values: {roll: {p: 30, i: 12}, yaw: {p: 70}}}
- {on: 2026-03-02, flight: 9 min, pack: P-1}
- {on: 2026-03-03, gains: crisp, values: {roll: {p: 36, i: 12}}}
- {on: 2026-03-04, flight: 3 min, pack: P-1}
"""


def test_gains_are_compared_with_the_set_flown_most(tmp_path: Path) -> None:
    """By time in the air; where that is the set before, or the one in force, it is said once."""

    def told(more: str) -> list[tuple[str | None, str | None]]:
        log = LOG + SETS + more
        answers = quad(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log})
        return [(one.of, one.verdict) for one in answers.figures if one.name == "gain_changes"]

    third = "- {on: 2026-03-05, gains: third, values: {roll: {p: 36, i: 12}}}\n"
    both = "the set in force before it, and the one flown most"
    assert [("soft", f"{both}: 2 of 3 terms differ")] == told("")
    assert [
        ("crisp", "the set in force before it: none of 2 terms differ"),
        ("soft", "the set flown most: 2 of 3 terms differ"),
    ] == told(third)
    assert [("crisp", "the set in force before it: 2 of 3 terms differ")] == told(
        "- {on: 2026-03-05, gains: soft}\n"
    )


def test_one_gain_set_has_nothing_to_be_compared_with(tmp_path: Path) -> None:
    """It says so, at the set."""
    log = LOG + SETS.splitlines(keepends=True)[0]
    answers = quad(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log})

    assert ["soft is the only gain set so far"] == [
        one.because for one in answers.cannot_say if one.name == "gain_changes"
    ]


def test_readings_of_receiver_and_motors(tmp_path: Path) -> None:
    """Rudder 17 % off; the highest start is 11 %, five points above the others."""
    log = LOG + (
        "- on: 2026-03-01\n  check: receiver-neutral\n  result: fail\n"
        "  readings: {aileron: 2, elevator: -1, rudder: -17, throttle: 0}\n"
        "- on: 2026-03-02\n  check: start-spread\n  result: fail\n"
        "  readings: {front-left: 6 %, front-right: 6 %, rear-right: 11 %, rear-left: 6 %}\n"
    )
    answers = quad(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log})
    neutral, start = found(answers, "receiver_neutral"), found(answers, "start_spread")

    assert (-17.0, "outside: rudder; the check failed") == (neutral.value, neutral.verdict)
    assert {"spread, %": 19.0} == neutral.other
    assert (0.11, "starts apart: rear-right") == (start.value, start.verdict)


def test_cost_of_an_hour(tmp_path: Path) -> None:
    """A scrapped propeller of 4 EUR in 12 flights of about 5.5 min."""
    items = ITEMS.replace(
        "spec: prop-cw, acquired: 2026-01-01", "spec: prop-cw, acquired: 2026-01-01, price: 4 EUR"
    )
    more = "- {on: 2026-06-01, remove: [R-1], state: scrapped}\n"
    files = {**flown(12, more), "parts/items.yaml": items}
    figure = found(quad(tmp_path, files), "operating_cost")
    seconds = sum(300 + 10 * (number % 7) for number in range(12))

    assert pytest.approx(4 / (seconds / 3600)) == figure.value
    assert f"{4 / (seconds / 3600):.2f} EUR an hour" == figure.verdict
    assert () == figure.notes
    assert "4.00 EUR" == input_words(figure.inputs[0])


def test_cost_names_what_was_worn_without_a_price(tmp_path: Path) -> None:
    """R-1 has a price, R-3 has none."""
    items = ITEMS.replace(
        "spec: prop-cw, acquired: 2026-01-01", "spec: prop-cw, acquired: 2026-01-01, price: 4 EUR"
    )
    more = "- {on: 2026-06-01, remove: [R-1, R-3], state: scrapped}\n"
    files = {**flown(12, more), "parts/items.yaml": items}

    figure = found(quad(tmp_path, files), "operating_cost")

    assert ("worn without a price: R-3",) == figure.notes
    assert (figure.verdict or "").endswith(" EUR an hour at least")


def test_bench_and_log_disagree_in_percent(tmp_path: Path) -> None:
    """Prediction over flown, less one."""
    figure = found(quad(tmp_path, benched(flights(12))), "flown_time", "P-1")
    assert figure.value is not None

    assert (
        pytest.approx(figure.other["predicted, s"] / figure.value - 1)
        == (figure.other["predicted against flown"])
    )


def test_a_pack_set_aside_says_so_before_its_figures(tmp_path: Path) -> None:
    """Quarantine is shown before health and time; no timer is given for it."""
    files = {
        **flown(12),
        "stores/p-1.yaml": "- {on: 2026-06-01, state: {P-1: quarantined}, because: dented}\n",
    }
    answers = quad(tmp_path, files)

    assert "P-1 is quarantined" == found(answers, "flight_time", "P-1").verdict
    assert ("P-1 is quarantined", "stores/p-1.yaml:1") == refused(answers, "timer_setting", "P-1")


@pytest.mark.parametrize(
    ("charge", "verdict", "notes"),
    [
        ("put_in: 1100 mAh, ", None, ()),
        (
            "",
            "at least",
            (
                "flights without a figure, which count nothing: 1",
                "charges without a figure, which count nothing: 1",
            ),
        ),
    ],
)
def test_a_flight_without_a_figure(
    tmp_path: Path, charge: str, verdict: str | None, notes: tuple[str, ...]
) -> None:
    """The charge after it says what it took; where that is unknown too the sum is a least one."""
    log = LOG + (
        "- {on: 2026-03-01, flight: 6 min, pack: P-1}\n"
        f"- {{on: 2026-03-01, charge: P-1, {charge}to: full}}\n"
    )
    if not charge:
        log += (
            "- {on: 2026-03-02, flight: 6 min, pack: P-1, used: 1100 mAh}\n"
            "- {on: 2026-03-02, charge: P-1, put_in: 1100 mAh}\n"
        )
    figure = found(pack(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log}), "pack_cycles")

    assert (verdict, notes) == (figure.verdict, figure.notes)
    assert pytest.approx(0.5) == figure.value


def test_charges_without_a_figure_are_not_no_charge(tmp_path: Path) -> None:
    """400 charges of which nobody wrote what went in: not 0.0 cycles, but cannot say."""
    first = datetime.date(2025, 1, 1)
    days = (first + datetime.timedelta(days=number) for number in range(400))
    log = "".join(f"- {{on: {day}, charge: P-1, to: full}}\n" for day in days)
    answers = pack(tmp_path, {**SMALL, "stores/p-1.yaml": log})
    lacking = "charge through P-1 is not recorded: write 'put_in' in a charge or 'used' in a flight"

    assert lacking == refused(answers, "pack_cycles")[0]
    assert lacking == refused(answers, "component_cycles")[0]
    assert 400 == found(answers, "pack_charges").value


def test_some_charges_without_a_figure_make_it_at_least(tmp_path: Path) -> None:
    """One charge of 1100 of 2200 mAh and one without a figure: at least half a cycle."""
    log = (
        "- {on: 2026-03-01, charge: P-1, put_in: 1100 mAh}\n"
        "- {on: 2026-03-02, charge: P-1, to: full}\n"
    )
    answers = pack(tmp_path, {**SMALL, "stores/p-1.yaml": log})

    for name in ("pack_cycles", "component_cycles"):
        figure = found(answers, name)
        assert (0.5, "at least") == (figure.value, figure.verdict)
        assert "charges without a figure, which count nothing: 1" in figure.notes


def test_a_new_pack_has_no_cycle(tmp_path: Path) -> None:
    """Nothing was charged or flown yet: that is zero, and known."""
    figure = found(pack(tmp_path, SMALL), "pack_cycles")

    assert (0.0, None, ()) == (figure.value, figure.verdict, figure.notes)


def test_flights_before_the_log_without_hours_make_hours_at_least(tmp_path: Path) -> None:
    """30 flights before, their hours unknown: the 0.1 h of this log are at least."""
    items = ITEMS.replace(
        "{tag: P-1, spec: pack, acquired: 2026-01-01}",
        "{tag: P-1, spec: pack, acquired: 2026-01-01, carried: {flights: 30, basis: measured}}",
    )
    log = LOG + "- {on: 2026-03-01, flight: 6 min, pack: P-1, used: 1000 mAh}\n"
    files = {**SMALL, "parts/items.yaml": items, "aircraft/sedge/logbook.yaml": log}
    answers = pack(tmp_path, files)

    assert "at least; hours before the log are not recorded" == (
        found(answers, "component_hours").verdict
    )
    assert (31, None) == (
        found(answers, "component_flights").value,
        found(answers, "component_flights").verdict,
    )


def test_time_between_two_incidents_has_exact_limits(tmp_path: Path) -> None:
    """Two in 20 flights: 10 flights between; 20/7.224688 and 20/0.2422093 (R04, R10 inverted).

    Source: NIST/SEMATECH e-Handbook 8.4.5.1. Hours are the sum of the flights over 3,600.
    """
    more = (
        "- {on: 2026-05-01, incident: tipped over, severity: light}\n"
        "- {on: 2026-05-02, incident: tipped over again, severity: light}\n"
    )
    answers = quad(tmp_path, flown(20, more))
    between = found(answers, "failure_interval", "flights")
    hours = found(answers, "failure_interval", "hours")
    observed = sum(300 + 10 * (number % 7) for number in range(20)) / 3600

    assert 10.0 == between.value
    assert pytest.approx(20 / 7.224688, rel=1e-6) == between.low
    assert pytest.approx(20 / 0.2422093, rel=1e-6) == between.high
    assert pytest.approx(observed / 2, rel=1e-9) == hours.value
    assert pytest.approx(observed / 7.224688, rel=1e-6) == hours.low
    assert "h" == hours.unit


def test_no_incident_yet_gives_a_least_time_between(tmp_path: Path) -> None:
    """None in 20 flights: at least 20/2.995732 = 6.68 flights between two (R12)."""
    figure = found(quad(tmp_path, flown(20)), "failure_interval", "flights")

    assert figure.value is None
    assert pytest.approx(20 / 2.995732, rel=1e-6) == figure.low
    assert figure.high is None
    assert "no incident yet; at least 6.7 flights between two, at 95 %" == figure.verdict


def test_cycles_from_before_the_log_count(tmp_path: Path) -> None:
    """40 before and half a cycle here; charges before are not counted, and it is said."""
    items = ITEMS.replace(
        "{tag: P-1, spec: pack, acquired: 2026-01-01}",
        "{tag: P-1, spec: pack, acquired: 2026-01-01, carried: {cycles: 40, basis: measured}}",
    )
    log = "- {on: 2026-03-01, charge: P-1, put_in: 1100 mAh}\n"
    answers = pack(tmp_path, {**SMALL, "parts/items.yaml": items, "stores/p-1.yaml": log})

    assert pytest.approx(40.5) == found(answers, "pack_cycles").value
    assert pytest.approx(40.5) == found(answers, "component_cycles").value
    assert "in this log; charges before it are not counted" == (
        found(answers, "pack_charges").verdict
    )


def test_cost_of_a_pack_by_its_wear(tmp_path: Path) -> None:
    """30 EUR, 10 % of 2200 mAh gone of the 20 % that it may lose: half worn, 15 EUR in all."""
    items = ITEMS.replace(
        "{tag: P-1, spec: pack, acquired: 2026-01-01}",
        "{tag: P-1, spec: pack, acquired: 2026-01-01, price: 30 EUR}",
    )
    more = "- {on: 2026-06-01, capacity: P-1, measured: 1980 mAh}\n"
    figure = found(quad(tmp_path, {**flown(12, more), "parts/items.yaml": items}), "operating_cost")

    assert pytest.approx(15.0) == figure.other["together, EUR"]


def test_what_a_pack_flew_before_the_log_is_no_cost_here(tmp_path: Path) -> None:
    """As above, 12 of its 48 flights in this log: a quarter of the 15 EUR."""
    items = ITEMS.replace(
        "{tag: P-1, spec: pack, acquired: 2026-01-01}",
        "{tag: P-1, spec: pack, acquired: 2026-01-01, price: 30 EUR, carried: {flights: 36}}",
    )
    more = "- {on: 2026-06-01, capacity: P-1, measured: 1980 mAh}\n"
    figure = found(quad(tmp_path, {**flown(12, more), "parts/items.yaml": items}), "operating_cost")

    assert pytest.approx(15.0 / 4) == figure.other["together, EUR"]


def test_every_pack_has_its_own_row(tmp_path: Path) -> None:
    """Two packs that both have flown: each has its mass, time, margin, timer and alarm."""
    log = LOG + flights(3) + "- {on: 2026-04-01, flight: 6 min, pack: P-2}\n"
    files = benched()
    files["parts/items.yaml"] += "- {tag: P-2, spec: pack, acquired: 2026-01-01}\n"
    files["aircraft/sedge/logbook.yaml"] = log
    answers = quad(tmp_path, files)
    names = ("all_up_mass", "flight_time", "battery_margin", "timer_setting", "alarm_voltage")
    of = {name: [one.of for one in answers.figures if one.name == name] for name in names}

    assert {name: ["P-1", "P-2"] for name in names} == of
    assert ["P-1", "P-2"] == [one.of for one in answers.cannot_say if one.name == "flown_time"]


def test_figures_of_the_whole_aircraft_are_for_the_pack_of_the_last_flight(tmp_path: Path) -> None:
    """P-2 flew last but one, P-1 last; then P-2 once more."""
    files = flown(2, "- {on: 2026-04-01, flight: 6 min, pack: P-2}\n" + flights(1, 9.0, 40))
    files["parts/items.yaml"] = ITEMS + "- {tag: P-2, spec: pack, acquired: 2026-01-01}\n"
    again = dict(files)
    again["aircraft/sedge/logbook.yaml"] += "- {on: 2026-05-01, flight: 6 min, pack: P-2}\n"

    assert "P-1" == found(quad(tmp_path / "a", files), "mass_budget").of
    assert "P-2" == found(quad(tmp_path / "b", again), "mass_budget").of


def test_readings_from_before_a_check_did_not_apply_count_no_more(tmp_path: Path) -> None:
    """The receiver that they were read of is another by then; so says the check itself."""
    read = "- {on: 2026-03-01, check: receiver-neutral, result: pass, readings: {rudder: 2 %}}\n"
    gone = "- {on: 2026-04-01, check: receiver-neutral, result: not applicable, because: none}\n"
    refused = quad(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": LOG + read + gone}).cannot_say

    assert ["receiver-neutral does not apply, by its last entry"] == [
        one.because for one in refused if one.name == "receiver_neutral"
    ]
