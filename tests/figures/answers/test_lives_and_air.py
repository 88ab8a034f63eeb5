"""Hours and flights of airframes and parts, capacity over time, and the air of other fields."""

import datetime
from pathlib import Path

import pytest
from small_hangars import ITEMS, KEEPER, LOG, QUAD, SMALL, found, opened, pack, quad

from buildbook.figures.answers.registry import figures_of_aircraft, figures_of_item
from buildbook.report.figure import Answers
from buildbook.words.for_machines import figures_shape

TWO_FLIGHTS = (
    "- {on: 2026-03-01, flight: 6 min, pack: P-1}\n- {on: 2026-03-02, flight: 12 min, pack: P-1}\n"
)


def test_the_air_of_a_high_warm_field(tmp_path: Path) -> None:
    """4000 ft and 25 °C: 1.02250 kg/m³, density altitude 6046 ft (ISA; check values, section 1)."""
    keeper = KEEPER.replace("field_elevation: 0 m", "field_elevation: 1219.2 m").replace(
        "15 °C", "25 °C"
    )
    answers = quad(tmp_path, {**SMALL, "hangar.yaml": keeper})

    assert pytest.approx(1.02250, rel=1e-4) == found(answers, "air_density").value
    assert pytest.approx(6046 * 0.3048, abs=1.0) == found(answers, "density_altitude").value
    assert "spec" == found(answers, "air_density").basis


def test_the_air_of_the_last_flight(tmp_path: Path) -> None:
    """35 °C at sea level: 1.14549 kg/m³ (check values, section 1); the place is the flight's."""
    log = LOG + "- {on: 2026-03-01, flight: 6 min, pack: P-1, temperature: 35 °C}\n" + TWO_FLIGHTS
    answers = quad(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log})
    figure = found(answers, "air_density", "last flight with a temperature")

    assert pytest.approx(1.14549, rel=1e-5) == figure.value
    assert ["hangar.yaml:4", "aircraft/sedge/logbook.yaml:8"] == [
        str(given.place) for given in figure.inputs
    ]


def test_hover_power_in_thin_air(tmp_path: Path) -> None:
    """Power goes as one over the root of the density: 88.135·sqrt(1.225/1.0225) = 96.47 W,
    at the shafts; by 0.78·0.95, the default efficiencies, it is drawn from the pack."""
    keeper = KEEPER.replace("field_elevation: 0 m", "field_elevation: 1219.2 m").replace(
        "15 °C", "25 °C"
    )
    figure = found(quad(tmp_path, {**SMALL, "hangar.yaml": keeper}), "hover_power")

    at_shafts_w = 88.135 * (1.225 / 1.0225) ** 0.5
    assert pytest.approx(at_shafts_w / (0.78 * 0.95), rel=1e-4) == figure.value


def test_hours_and_flights_with_what_was_carried(tmp_path: Path) -> None:
    """18 min here and 4.2 h before are 4.5 h; 2 and 31 are 33 flights."""
    layout = QUAD + "carried: {hours: 4.2, flights: 31, basis: measured}\n"
    files = {
        **SMALL,
        "aircraft/sedge/aircraft.yaml": layout,
        "aircraft/sedge/logbook.yaml": LOG + TWO_FLIGHTS,
    }
    answers = quad(tmp_path, files)
    hours, flights = found(answers, "aircraft_hours"), found(answers, "aircraft_flights")

    assert pytest.approx(4.5) == hours.value
    assert 33 == flights.value
    assert [pytest.approx(4.2), pytest.approx(0.3)] == [given.value for given in hours.inputs]
    assert "aircraft/sedge/aircraft.yaml:17" == str(hours.inputs[0].place)
    assert hours.verdict is None


def test_a_part_takes_its_hours_along(tmp_path: Path) -> None:
    """R11: 0.1 h on the first aircraft, 0.2 h on the second: 0.3 h and 2 flights."""
    second = QUAD.replace("Sedge", "Rush")
    files = {
        **SMALL,
        "aircraft/rush/aircraft.yaml": second,
        "aircraft/sedge/logbook.yaml": LOG
        + "- {on: 2026-03-01, flight: 6 min, pack: P-1}\n- {on: 2026-03-02, remove: [C-1]}\n",
        "aircraft/rush/logbook.yaml": "- {on: 2026-03-02, fit: {centre: {controller: C-1}}}\n"
        "- {on: 2026-03-03, flight: 12 min, pack: P-1}\n",
    }
    hangar = opened(tmp_path, files)
    controller = figures_of_item(hangar, "C-1")

    assert pytest.approx(0.3) == found(controller, "component_hours").value
    assert 2 == found(controller, "component_flights").value
    assert pytest.approx(0.1) == (
        found(figures_of_aircraft(hangar, "sedge"), "aircraft_hours").value
    )
    assert pytest.approx(0.1) == found(figures_of_item(hangar, "M-1"), "component_hours").value


def test_crashes_and_hard_landings_of_a_part(tmp_path: Path) -> None:
    """A crash is no hard landing too."""
    log = LOG + (
        "- {on: 2026-03-01, flight: 6 min, pack: P-1, landing: hard}\n"
        "- {on: 2026-03-02, flight: 6 min, pack: P-1, landing: crash}\n"
    )
    hangar = opened(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log})
    figure = found(figures_of_item(hangar, "M-1"), "component_crashes")

    assert 1 == figure.value
    assert {"hard landings": 1.0} == figure.other


def test_an_estimate_is_told_as_about(tmp_path: Path) -> None:
    """R16: a best estimate of 30 h before, 0.3 h here: about 30.3 h, and no more than declared."""
    items = ITEMS.replace(
        "{tag: C-1, spec: controller, acquired: 2026-01-01}",
        "{tag: C-1, spec: controller, acquired: 2026-01-01, carried: {hours: 30, basis: estimate}}",
    )
    files = {
        **SMALL,
        "parts/items.yaml": items,
        "aircraft/sedge/logbook.yaml": LOG + TWO_FLIGHTS,
    }
    figure = found(figures_of_item(opened(tmp_path, files), "C-1"), "component_hours")

    assert pytest.approx(30.3) == figure.value
    assert ("about; what was before the log is estimated", "spec") == (figure.verdict, figure.basis)


def test_crashes_before_the_log_are_not_nought(tmp_path: Path) -> None:
    """A life before the log is written without its crashes: those of the log are the least."""
    items = ITEMS.replace(
        "{tag: C-1, spec: controller, acquired: 2026-01-01}",
        "{tag: C-1, spec: controller, acquired: 2026-01-01, carried: {hours: 30}}",
    )
    hangar = opened(tmp_path, {**SMALL, "parts/items.yaml": items})
    figure = found(figures_of_item(hangar, "C-1"), "component_crashes")

    assert "at least; crashes before the log are not recorded" == figure.verdict
    assert ["in this log"] == [one.name for one in figure.inputs]


def test_capacity_and_its_change_a_charge(tmp_path: Path) -> None:
    """2200, 2150, 2100 mAh after 10, 20, 30 charges: -5 mAh a charge; 95.5 % of rated."""
    entries, day = [], 0
    for measured in (2200, 2150, 2100):
        for _ in range(10):
            day += 1
            entries.append(f"- {{on: 2026-{3 + day // 28:02}-{1 + day % 28:02}, charge: P-1}}\n")
        entries.append(
            f"- {{on: 2026-{3 + day // 28:02}-{1 + day % 28:02}, capacity: P-1, "
            f"measured: {measured} mAh, temperature: 2{measured % 7} °C}}\n"
        )
    answers = pack(tmp_path, {**SMALL, "stores/p-1.yaml": "".join(entries)})
    last, change = (
        found(answers, "pack_capacity"),
        found(answers, "pack_capacity", "change a charge"),
    )

    assert pytest.approx(2.1) == last.value
    assert "95.5 % of the rated capacity" == last.verdict
    assert pytest.approx(-0.005) == change.value
    assert (None, None, None) == (change.low, change.high, change.level)
    assert "too few readings for limits: 3, it takes 5" == change.verdict
    assert "by charges counted since the first" in change.notes
    assert any(note.startswith("readings at 20 to 2") for note in change.notes)


def test_two_measurements_are_no_trend(tmp_path: Path) -> None:
    """Three are the least."""
    log = (
        "- {on: 2026-03-01, capacity: P-1, measured: 2200 mAh}\n"
        "- {on: 2026-04-01, capacity: P-1, measured: 2150 mAh}\n"
    )
    answers = pack(tmp_path, {**SMALL, "stores/p-1.yaml": log})

    assert pytest.approx(2.15) == found(answers, "pack_capacity").value
    assert answers.find("pack_capacity", "change a charge") is None


@pytest.mark.parametrize(
    ("bounds", "verdict"),
    [
        ("forward_cg: 20 mm, aft_cg: -20 mm", "within the limits"),
        ("forward_cg: 20 mm, aft_cg: 5 mm", "behind the aft limit"),
        ("forward_cg: -5 mm, aft_cg: -20 mm", "ahead of the forward limit"),
        ("max_mass: 1300 g", "limits forward and aft not recorded"),
    ],
)
def test_limits_of_the_balance(tmp_path: Path, bounds: str, verdict: str) -> None:
    """The centre of gravity is in the middle; limits in metres ahead of it."""
    layout = QUAD.replace("bounds: {max_mass: 1300 g}", f"bounds: {{{bounds}}}")
    answers = quad(tmp_path, {**SMALL, "aircraft/sedge/aircraft.yaml": layout})

    assert verdict == found(answers, "balance", "forward").verdict


def test_an_end_of_life_says_what_a_charge_is(tmp_path: Path) -> None:
    """41 charges, every tenth measured; four of them to storage, one in part."""
    entries = []
    for number in range(41):
        day = datetime.date(2026, 1, 1) + datetime.timedelta(days=5 * number)
        to = {10: ", to: part"}.get(number, ", to: storage" if number in (3, 13, 23, 33) else "")
        entries.append(f"- {{on: {day}, charge: P-1, put_in: 1000 mAh{to}}}\n")
        if number % 5 == 0:
            entries.append(
                f"- {{on: {day}, capacity: P-1, measured: {2200 - 3 * number} mAh, "
                "temperature: 22 °C}\n"
            )
    end = found(pack(tmp_path, {**SMALL, "stores/p-1.yaml": "".join(entries)}), "pack_end_of_life")

    assert ("37 charges so far; 4 to storage are not counted; 1 in part counts as one") in end.notes


def charged_and_stored(folder: Path, stored: bool) -> Answers:
    """Thirty charges, every third measured, 6 mAh less each; between them one to storage, or not.

    The loss is by use: what is topped up for the shelf takes nothing.
    """
    entries = []
    for number in range(30):
        day = datetime.date(2026, 1, 1) + datetime.timedelta(days=7 * number)
        entries.append(f"- {{on: {day}, charge: P-1, put_in: 1500 mAh, to: full}}\n")
        if number % 3 == 0:
            left = 2200 - 6 * number
            entries.append(
                f"- {{on: {day}, capacity: P-1, measured: {left} mAh, temperature: 22 °C}}\n"
            )
        if stored:
            later = day + datetime.timedelta(days=1)
            entries.append(f"- {{on: {later}, charge: P-1, put_in: 300 mAh, to: storage}}\n")
    as_of = datetime.date(2026, 7, 25)
    return figures_of_item(
        opened(folder, {**SMALL, "stores/p-1.yaml": "".join(entries)}, as_of), "P-1"
    )


def test_a_top_up_for_the_shelf_is_no_charge_of_its_life(tmp_path: Path) -> None:
    """440 mAh to lose at 6 a charge: below for good at charge 75, topped up between or not."""
    plain = charged_and_stored(tmp_path / "plain", stored=False)
    topped = charged_and_stored(tmp_path / "topped", stored=True)
    end = found(topped, "pack_end_of_life")

    assert pytest.approx(75, abs=4) == end.value
    assert found(plain, "pack_end_of_life").value == end.value
    assert (
        pytest.approx(-0.006, rel=0.01) == found(topped, "pack_capacity", "change a charge").value
    )
    assert "30 of them to storage" == found(topped, "pack_charges").verdict
    assert "30 charges so far; 30 to storage are not counted" in end.notes


def test_the_day_of_the_end_says_what_comes_first(tmp_path: Path) -> None:
    """A charge a week and 45 to go: 45 weeks from 23 July 2026 on are about June 2027."""
    figure = found(charged_and_stored(tmp_path, stored=True), "pack_end_of_life_date")
    verdict = figure.verdict or ""

    assert verdict.endswith(", age by itself not within 5 years")
    months = ("June", "July", "August", "September")
    first = "charging ends it first: by itself in"
    assert any(verdict.startswith(f"{first} {one} 2027, ") for one in months)


def seldom_charged(folder: Path, until: datetime.date, state: str = "") -> Answers:
    """Every fifth week a charge for five years, a capacity at each fifth, then as of a day."""
    entries = []
    for number in range(30):
        day = datetime.date(2023, 7, 1) + datetime.timedelta(days=35 * number)
        entries.append(f"- {{on: {day}, charge: P-1, put_in: 1500 mAh, to: full}}\n")
        if number % 5 == 0:
            entries.append(f"- {{on: {day}, capacity: P-1, measured: {2200 - 4 * number} mAh}}\n")
    files = {**SMALL, "stores/p-1.yaml": "".join(entries) + state}
    return figures_of_item(opened(folder, files, until), "P-1")


def test_a_day_that_nobody_plans_for_is_not_told(tmp_path: Path) -> None:
    """80 of 110 charges to go at ten a year: some eight years, and nobody believes the month."""
    day = datetime.date(2026, 4, 20)
    figure = found(seldom_charged(tmp_path, day), "pack_end_of_life_date")

    assert (None, None, None, None) == (figure.value, figure.low, figure.day, figure.low_day)
    told = figures_shape(Answers(figures=(figure,)), {}, day, datetime.date.isoformat)
    assert (None, None) == tuple(told["figures"][0][key] for key in ("value", "unit"))
    assert "not within 5 years at this rate" == figure.verdict
    assert (
        "by charging as in the last 180 days and by age together",
        "the early end of the interval decides: of ten packs like it at most one ends sooner",
        "a sudden loss after the last measurement cannot be predicted",
    ) == figure.notes[1:]


def test_a_pack_that_lies_uncharged_is_told_so(tmp_path: Path) -> None:
    """Nothing charged for a year: no rate, and by age alone it is far."""
    figure = found(seldom_charged(tmp_path, datetime.date(2027, 6, 1)), "pack_end_of_life_date")

    assert "not within 5 years if it goes on lying uncharged" == figure.verdict


@pytest.mark.parametrize("state", ["retired", "scrapped"])
def test_a_pack_out_of_use_has_no_end_to_come(tmp_path: Path, state: str) -> None:
    """Neither a number nor a day, and never that it is too early to say."""
    gone = f"- {{on: 2026-04-15, state: {{P-1: {state}}}, because: swollen}}\n"
    whole = seldom_charged(tmp_path / "whole", datetime.date(2026, 4, 20), gone)
    few = figures_of_item(
        opened(tmp_path / "few", {**SMALL, "stores/p-1.yaml": gone}, datetime.date(2026, 4, 20)),
        "P-1",
    )

    for answers in (whole, few):
        said = {one.name: one.because for one in answers.cannot_say}
        assert f"P-1 is {state}: no forecast" == said["pack_end_of_life"]
        assert f"P-1 is {state}: no forecast" == said["pack_end_of_life_date"]


def test_a_reading_stands_with_its_day(tmp_path: Path) -> None:
    """The capacity of week 27; its resistance of the last charge."""
    answers = charged_and_stored(tmp_path, stored=False)

    assert "measured on 9 July 2026 at 22 °C" == found(answers, "pack_capacity").notes[0]
