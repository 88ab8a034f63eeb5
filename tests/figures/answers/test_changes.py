"""Which flights are compared with each other, and the bands of readings and tips."""

from pathlib import Path

import pytest
from small_hangars import BENCH, ITEMS, LOG, SMALL, SPECS, benched, found, logged, quad
from test_log_and_packs import flights

from buildbook.report.figure import Answers

LARGER = "- {spec: prop-larger, kind: propeller, mass: 12 g, size: 11x4.7, hand: cw}\n"
MORE_ITEMS = (
    "- {tag: R-9, spec: prop-larger, acquired: 2026-01-01}\n"
    "- {tag: R-8, spec: prop-cw, acquired: 2026-01-01}\n"
)


MASS = "- {on: 2026-03-15, alteration: lamp taped on, mass: 60 g, at: [0 mm, 0 mm, 0 mm]}\n"


def after(change: str, more: int, before_a: float = 9.0, since_a: float = 7.0) -> dict[str, str]:
    """12 flights at so much current, a change, then more flights at another."""
    log = flights(12, before_a) + change + flights(more, since_a, 20)
    files = {
        **SMALL,
        "parts/specs.yaml": SPECS + LARGER,
        "parts/items.yaml": ITEMS + MORE_ITEMS,
    }
    return logged(log, files)


def current_and_flights(answers: Answers) -> tuple[float, float]:
    """The current as flown, and how many flights it is from."""
    figure = found(answers, "flown_current")
    counted = next(one for one in figure.inputs if one.name == "flights in the log")
    assert figure.value is not None
    assert isinstance(counted.value, int)
    return round(figure.value, 1), counted.value


def fit(tag: str) -> str:
    """Another propeller in place of R-1."""
    return (
        f"- {{on: 2026-03-15, fit: {{front-right: {{propeller: {tag}}}}}, "
        "instead_of: {R-1: serviceable}}\n"
    )


def test_a_larger_propeller_begins_a_new_history(tmp_path: Path) -> None:
    """Ten flights since are enough to count alone: 7 A, not something between 7 and 9."""
    assert (7.0, 10) == current_and_flights(quad(tmp_path, after(fit("R-9"), 10)))


def test_a_propeller_of_the_same_size_changes_nothing(tmp_path: Path) -> None:
    """All 22 flights are compared."""
    assert 22 == current_and_flights(quad(tmp_path, after(fit("R-8"), 10)))[1]


def test_too_few_flights_since_a_change_are_joined_by_those_before(tmp_path: Path) -> None:
    """Nine are too few; 21 flights count."""
    assert 21 == current_and_flights(quad(tmp_path, after(fit("R-9"), 9)))[1]


def test_a_mass_added_begins_a_new_history(tmp_path: Path) -> None:
    """An alteration that names a mass."""
    assert (7.0, 10) == current_and_flights(quad(tmp_path, after(MASS, 10)))


@pytest.mark.parametrize(("more", "law"), [(9, "constant_power_discharge"), (10, "forecast_time")])
def test_a_log_from_before_a_change_does_not_overrule_the_theory(
    tmp_path: Path, more: int, law: str
) -> None:
    """12 flights at 9 A, less than a hover, then 60 g more and flights at 9 A: ten may say so."""
    figure = found(quad(tmp_path, after(MASS, more, 9.0, 9.0)), "flight_time", "P-1")

    assert law == figure.law
    if more < 10:
        assert "; 9 flights since motor, propeller or mass changed" in (figure.verdict or "")


def test_a_short_log_from_before_a_change_is_still_planned_with(tmp_path: Path) -> None:
    """At 30 A less time than the theory says; that some of it is old is told.

    Less too than by the 25 A since then and 15 % more, 28.75 A.
    """
    figure = found(quad(tmp_path, after(MASS, 3, 30.0, 25.0)), "flight_time", "P-1")

    assert "forecast_time" == figure.law
    assert "12 of them flown before motor, propeller or mass last changed" in figure.notes


@pytest.mark.parametrize(
    ("rpm", "mach", "verdict"),
    [(15300, 0.598, "below the loud band"), (15500, 0.606, "loud"), (19500, 0.762, "lossy")],
)
def test_bands_of_the_tip_speed(tmp_path: Path, rpm: int, mach: float, verdict: str) -> None:
    """Loud above Mach 0.6, lossy above 0.75: common practice, no source."""
    files = {**benched(), "bench/motor.csv": BENCH.replace("8.4,6600", f"8.4,{rpm}")}
    figure = found(quad(tmp_path, files), "tip_mach", "full throttle")

    assert pytest.approx(mach, abs=0.001) == figure.value
    assert verdict == figure.verdict


def neutral(readings: str) -> dict[str, str]:
    """The small quad after its channels were read in the middle."""
    return logged(
        f"- on: 2026-03-01\n  check: receiver-neutral\n  result: pass\n  readings: {{{readings}}}\n"
    )


@pytest.mark.parametrize(
    ("rudder", "others", "verdict"),
    [
        ("2", "0", "none is outside"),
        ("6", "0", "outside: rudder"),
        ("-6", "0", "outside: rudder"),
        ("2 %", "0.4 %", "none is outside"),
        ("-2.1 %", "0.4 %", "outside: rudder"),
        ("1512", "1500", "none is outside"),
        ("1513", "1500", "outside: rudder"),
        ("1488 µs", "1512 µs", "none is outside"),
        ("1487 µs", "1512 µs", "outside: rudder"),
        ("1520 µs", "1520 µs", "outside: aileron, elevator, rudder"),
    ],
)
def test_bands_of_the_neutral_readings(
    tmp_path: Path, rudder: str, others: str, verdict: str
) -> None:
    """2 % about nought, 12 µs about 1500: common practice, no source."""
    files = neutral(f"aileron: {others}, elevator: {others}, rudder: {rudder}")

    assert verdict == found(quad(tmp_path, files), "receiver_neutral").verdict


@pytest.mark.parametrize(
    ("slow", "verdict"), [("8 %", "all start together"), ("9 %", "starts apart: rear-right")]
)
def test_band_of_the_start_spread(tmp_path: Path, slow: str, verdict: str) -> None:
    """Two points of throttle about the middle: common practice, no source."""
    log = LOG + (
        "- on: 2026-03-01\n  check: start-spread\n  result: pass\n  readings: "
        f"{{front-left: 6 %, front-right: 6 %, rear-right: {slow}, rear-left: 6 %}}\n"
    )
    figure = found(quad(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log}), "start_spread")

    assert verdict == figure.verdict
    assert pytest.approx(float(slow.removesuffix(" %")) / 100) == figure.value
    assert pytest.approx(float(slow.removesuffix(" %")) / 100 - 0.06) == figure.other["spread"]


def test_a_reading_from_before_the_motor_was_changed_says_so(tmp_path: Path) -> None:
    """The reading stays, with the note."""
    log = LOG + (
        "- on: 2026-03-01\n  check: start-spread\n  result: pass\n"
        "  readings: {front-left: 6 %, front-right: 6 %, rear-right: 7 %}\n"
        "- {on: 2026-03-02, fit: {front-left: {motor: M-9}}, instead_of: {M-1: scrapped}}\n"
    )
    files = {
        **SMALL,
        "parts/items.yaml": ITEMS + "- {tag: M-9, spec: motor, acquired: 2026-01-01}\n",
        "aircraft/sedge/logbook.yaml": log,
    }

    assert (
        "motor or ESC changed since: front-left",
        "no reading of rear-left",
    ) == found(quad(tmp_path, files), "start_spread").notes[1:]


def test_resistance_by_capacity_where_nothing_is_known(tmp_path: Path) -> None:
    """15 mΩ·Ah over 2.2 Ah, three cells: 20.5 mΩ, a default; 3S2P of half the cells as well."""
    specs = SPECS.replace("  cell_resistance: 5 mΩ\n", "")
    single = {**SMALL, "parts/specs.yaml": specs}
    double = {**SMALL, "parts/specs.yaml": specs.replace("cells: 3S", "cells: 3S2P")}
    for number, (files, ohms) in enumerate(((single, 0.045 / 2.2), (double, 0.045 / 2.2))):
        figure = found(quad(tmp_path / str(number), files), "flight_time", "P-1")
        given = next(one for one in figure.inputs if one.name == "resistance of P-1")
        assert (pytest.approx(ohms), "default") == (given.value, given.basis)
        assert "rests on what is assumed: resistance, " == figure.notes[0][:38]


@pytest.mark.parametrize(
    ("stated", "verdict"),
    [
        ("1520 µs", "none is outside"),
        ("1520", "none is outside"),
        ("2 %", "outside: aileron, rudder"),
    ],
)
def test_neutral_that_a_setting_states(tmp_path: Path, stated: str, verdict: str) -> None:
    """A set that rests at 1520 µs is read against that; one stated in another unit is none."""
    files = neutral("aileron: 1521 µs, rudder: 1528 µs")
    setting = f"- {{on: 2026-02-20, setting: {{neutral: {stated}}}}}\n"
    log = files["aircraft/sedge/logbook.yaml"].replace(
        "- on: 2026-03-01", setting + "- on: 2026-03-01"
    )
    files["aircraft/sedge/logbook.yaml"] = log

    assert verdict == found(quad(tmp_path, files), "receiver_neutral").verdict


def test_neutral_readings_keep_the_unit_that_they_were_read_in(tmp_path: Path) -> None:
    """6 µs off 1500, 0.7 % off nought; a channel in another unit is not compared."""
    for readings, expected in (
        ("rudder: 1506 µs, aileron: 1497 µs, elevator: 1494 µs", (6.0, "µs", "reading, µs", 3)),
        ("rudder: 0.6 %, elevator: -0.7 %, aileron: 4", (-0.7, "%", "reading, %", 2)),
        ("rudder: 2, elevator: -1", (2.0, "%", "reading, %", 2)),
    ):
        figure = found(quad(tmp_path, neutral(readings)), "receiver_neutral")
        assert figure.table is not None
        assert expected == (
            pytest.approx(figure.value),
            figure.unit,
            figure.table.columns[1],
            len(figure.table.rows),
        )


CHECKED = "- {on: 2026-02-05, check: spin-directions, result: pass}\n"


@pytest.mark.parametrize(
    ("since", "known"),
    [
        ("", {"measured"}),
        ("- {on: 2026-02-06, firmware: {C-1: board 4.5}}\n", {"spec"}),
        (
            "- {on: 2026-02-06, fit: {front-left: {motor: M-9}}, instead_of: {M-1: scrapped}}\n",
            {"measured", "spec"},
        ),
    ],
)
def test_spins_that_were_seen_are_known_well(tmp_path: Path, since: str, known: set[str]) -> None:
    """Seen at the bench they are measured, until something may have turned a motor round."""
    items = ITEMS + "- {tag: M-9, spec: motor, acquired: 2026-01-01}\n"
    answers = quad(tmp_path, logged(CHECKED + since, {**SMALL, "parts/items.yaml": items}))
    figure = found(answers, "allocation", "hover shares")
    spins = [one for one in figure.inputs if one.name.startswith("spin of ")]

    assert 4 == len(spins)
    assert known == {one.basis for one in spins}
