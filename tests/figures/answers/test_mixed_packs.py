"""An aircraft that is flown on packs of two cell counts: one power, two currents.

What it takes is the same power on both: 166.5 W are 15 A at the 11.1 V of three cells and 11.25 A
at the 14.8 V of four. Expected values are worked out by hand from that.
"""

import datetime
from collections.abc import Mapping
from pathlib import Path

import pytest
from small_hangars import ITEMS, LOG, SMALL, SPECS, found, opened, refused

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.rates import flown_watts
from buildbook.figures.answers.gathering import number
from buildbook.figures.answers.registry import figures_of_aircraft
from buildbook.report.state import Hangar

FOUR = """\
- {spec: four, kind: battery, mass: 350 g, cells: 4S, capacity: 1800 mAh, chemistry: LiPo}
"""
CURRENT_A = {"P-1": 15.0, "P-4": 11.25}


def mixed(
    folder: Path, *, threes: int, fours: int, more: Mapping[str, str] | None = None
) -> Hangar:
    """The quad with so many flights of 4 min on each, the four cells flown first."""
    first = datetime.date(2026, 3, 1)
    tags = ["P-4"] * fours + ["P-1"] * threes
    flights = "".join(
        f"- {{on: {first + datetime.timedelta(days=day)}, flight: '4:00', pack: {tag},"
        f" used: {CURRENT_A[tag] * 4 / 60 * 1000:.0f} mAh}}\n"
        for day, tag in enumerate(tags)
    )
    return opened(
        folder,
        {
            **SMALL,
            "parts/specs.yaml": SPECS + FOUR,
            "parts/items.yaml": ITEMS + "- {tag: P-4, spec: four, acquired: 2026-01-01}\n",
            "aircraft/sedge/logbook.yaml": LOG + flights,
            **(more or {}),
        },
    )


@pytest.mark.parametrize(("threes", "fours"), [(12, 12), (5, 12), (4, 40)])
def test_each_pack_lasts_by_flights_on_as_many_cells(
    tmp_path: Path, threes: int, fours: int
) -> None:
    """80 % of 2200 mAh at 15 A are 7 min 02.4 s, 80 % of 1800 mAh at 11.25 A are 7 min 40.8 s."""
    answers = figures_of_aircraft(mixed(tmp_path, threes=threes, fours=fours), "sedge")

    assert found(answers, "flown_time", "P-1").value == pytest.approx(422.4, rel=1e-6)
    assert found(answers, "flown_time", "P-4").value == pytest.approx(460.8, rel=1e-6)


def test_the_current_of_all_is_that_of_the_pack_flown_last(tmp_path: Path) -> None:
    """No flight took the mean of both; what was left apart is said, of the pack alone it is not."""
    answers = figures_of_aircraft(mixed(tmp_path, threes=12, fours=12), "sedge")
    of_all, of_four = (found(answers, "flown_current", of) for of in (None, "P-4"))

    assert of_all.value == pytest.approx(15.0, rel=1e-6)
    assert "12 flights on packs of 4S left apart" in of_all.notes
    assert of_four.value == pytest.approx(11.25, rel=1e-6)
    assert not [note for note in of_four.notes if "left apart" in note]


def test_the_power_as_flown_is_one(tmp_path: Path) -> None:
    """166.5 W, from either pack."""
    craft = Craft(mixed(tmp_path, threes=12, fours=12), "sedge")

    for pack in craft.packs:
        assert number(flown_watts(craft, pack)) == pytest.approx(166.5, rel=1e-6)


def test_flights_on_other_cells_are_none_for_a_pack(tmp_path: Path) -> None:
    """One flight on three cells makes no rate, however many there are on four."""
    answers = figures_of_aircraft(mixed(tmp_path, threes=1, fours=12), "sedge")

    lacking = refused(answers, "flown_time", "P-1")[0]
    assert lacking.startswith("flights with their charge so far, on packs of 3S: 1; it takes 4")


def test_the_drift_of_an_aircraft_is_not_that_of_its_cells(tmp_path: Path) -> None:
    """Fourteen flights on three cells after forty on four are too few, not a change of a third."""
    answers = figures_of_aircraft(mixed(tmp_path, threes=14, fours=40), "sedge")

    assert ": 14; it takes 16" in refused(answers, "drift", "time on an ampere-hour")[0]


def test_the_thrust_to_weight_is_of_the_pack_of_which_least_is_known(tmp_path: Path) -> None:
    """Below the bench table nobody knows how little is left: that pack is told, not the other.

    The table of 14.8 V ends at 11.1 V; three cells with a default resistance of 20 mΩ hold less
    at full throttle when the reserve is reached, four cells hold more.
    """
    specs = (SPECS + FOUR).replace("max_current: 18 A}", "max_current: 18 A, bench: four.csv}")
    bench = "throttle_%,voltage_V,current_A,thrust_N\n40,14.8,2,2.4\n70,14.8,8,5\n100,14.8,18,9\n"
    hangar = mixed(
        tmp_path, threes=1, fours=4, more={"parts/specs.yaml": specs, "bench/four.csv": bench}
    )
    verdict = found(figures_of_aircraft(hangar, "sedge"), "thrust_to_weight").verdict or ""

    assert verdict.startswith("with P-1; under ")
    assert "how far under is not known" in verdict


def test_a_fresh_pack_without_a_rating_may_be_the_first_limit(tmp_path: Path) -> None:
    """P-4 says no discharge rate: what else is rated is not the first of all."""
    specs = (SPECS + FOUR).replace("max_current: 18 A}", "max_current: 18 A, bench: four.csv}")
    bench = "throttle_%,voltage_V,current_A,thrust_N\n40,14.8,2,2.4\n70,14.8,8,5\n100,14.8,10,9\n"
    hangar = mixed(
        tmp_path, threes=1, fours=4, more={"parts/specs.yaml": specs, "bench/four.csv": bench}
    )
    verdict = found(figures_of_aircraft(hangar, "sedge"), "peak_current", "P-4").verdict or ""

    assert verdict.endswith("; no rating known of pack")
